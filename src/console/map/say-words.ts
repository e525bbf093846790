// What the map and the diff take for words: a key of the console's catalogue and its values. Given by the page.

export type SayWords = (key: string, values?: Readonly<Record<string, string | number>>) => string;
