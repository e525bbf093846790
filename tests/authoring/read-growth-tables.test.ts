import { describe, expect, it } from 'vitest';
import { growthTableFiles, readGrowthTables } from '../../src/authoring/read-growth-tables.ts';
import { readGrowthFiles } from '../../src/cli/load-growth-tables.ts';

const published = await readGrowthFiles(new URL('../../flows/reference', import.meta.url).pathname);
const weightFile = 'intergrowth-newborn-weight.csv';

const edited = (file: string, edit: (text: string) => string) => new Map([...published, [file, edit(published.get(file)!)]]);
const editedLine = (file: string, line: number, edit: (text: string) => string) =>
  edited(file, (text) =>
    text
      .split('\n')
      .map((row, index) => (index === line - 1 ? edit(row) : row))
      .join('\n'),
  );
const found = (files: ReadonlyMap<string, string>) => {
  const read = readGrowthTables(files);
  return read.kind === 'tables' ? [] : read.diagnostics.map(({ code, file, range }) => `${file}:${range.start.line} ${code}`);
};

describe('the growth tables', () => {
  it('are read as published: 70 days of gestation, 111 days and 55 further months of age, for each sex', () => {
    const read = readGrowthTables(published);
    if (read.kind === 'refused') throw new Error(JSON.stringify(read.diagnostics));
    const { newborn, who, veryPreterm, pretermPostnatal } = read.tables;
    for (const sex of ['girl', 'boy'] as const) {
      for (const measure of ['weight', 'length', 'head'] as const) expect(newborn[measure][sex].size).toBe(70);
      expect(who.weight[sex]).toHaveLength(111 + 55);
      expect(who.length[sex]).toHaveLength(111);
    }
    expect(veryPreterm.weight).toMatchObject({ firstWeek: 24, lastWeek: 230 / 7, scale: 'logarithm', spreadIs: 'variance' });
    expect(pretermPostnatal.head).toMatchObject({ firstWeek: 27, lastWeek: 64, scale: 'measure', spreadIs: 'sd' });
  });

  it('are read the same with a byte order mark and the line ends of another system', () => {
    expect(found(edited(weightFile, (text) => `\uFEFF${text.replaceAll('\n', '\r\n')}`))).toEqual([]);
  });

  it.each([
    [
      'a number with a comma in it',
      5,
      (row: string) => row.replace(/(\d)\.(\d)/, '$1,$2'),
      [`${weightFile}:5 growth-table/wrong-number-of-cells`, `${weightFile}:6 growth-table/out-of-order`],
    ],
    ['a letter for a digit', 5, (row: string) => row.replace(/0\.40/, 'O.40'), [`${weightFile}:5 growth-table/not-a-number`]],
    ['an empty cell', 5, (row: string) => row.replace(/,17\.05299,/, ',,'), [`${weightFile}:5 growth-table/not-a-number`]],
    ['a scale below 0', 5, (row: string) => row.replace(/,0\.40/, ',-0.40'), [`${weightFile}:5 growth-table/not-a-number`]],
    [
      'a sex that is not known',
      5,
      (row: string) => row.replace(/^M/, 'X'),
      [`${weightFile}:5 growth-table/unknown-word`, `${weightFile}:6 growth-table/out-of-order`],
    ],
    [
      'a day that is not its weeks',
      5,
      (row: string) => row.replace(',33,3,', ',33,4,'),
      [`${weightFile}:5 growth-table/days-and-weeks-differ`],
    ],
    [
      'another first line',
      1,
      (row: string) => row.replace('mu_kg', 'mu_g'),
      [`${weightFile}:1 growth-table/not-whole`, `${weightFile}:1 growth-table/not-whole`, `${weightFile}:1 growth-table/wrong-columns`],
    ],
  ])('are refused for %s, with the line', (_what, line, edit, diagnostics) => {
    expect(found(editedLine(weightFile, line, edit))).toEqual(diagnostics);
  });

  it('are refused with the place of the cell and the nearest word', () => {
    const file = 'intergrowth-very-preterm-equations.csv';
    const read = readGrowthTables(edited(file, (text) => text.replace('length,cm,mean,male', 'lenght,cm,mean,male')));
    expect(read).toMatchObject({
      diagnostics: [
        {
          code: 'growth-table/unknown-word',
          fix: 'Write "length".',
          range: { start: { line: 8, column: 1 }, end: { line: 8, column: 7 } },
        },
      ],
    });
  });

  it('are refused with a row missing, one twice there, or the last ones cut off', () => {
    const withLines = (change: (lines: string[]) => string[]) => found(edited(weightFile, (text) => change(text.split('\n')).join('\n')));
    expect(withLines((lines) => lines.toSpliced(10, 1))).toEqual([`${weightFile}:11 growth-table/out-of-order`]);
    expect(withLines((lines) => lines.toSpliced(10, 0, lines[10]!))).toEqual([`${weightFile}:12 growth-table/out-of-order`]);
    expect(withLines((lines) => lines.slice(0, 139))).toEqual([`${weightFile}:1 growth-table/not-whole`]);
  });

  it("are refused when an age in WHO's tables is skipped", () => {
    const file = 'who-length-for-age.csv';
    expect(found(edited(file, (text) => text.split('\n').toSpliced(105, 1).join('\n')))).toEqual([`${file}:106 growth-table/out-of-order`]);
  });

  it.each([
    ['a term twice', (text: string) => text.replace('weight,ln(kg),mean,male,0.0571937', 'weight,ln(kg),mean,1,0.0571937')],
    ['no spread', (text: string) => text.replace('weight,ln(kg),variance,1,0.0373218\n', '')],
    ['no mean', (text: string) => text.replaceAll(/weight,ln\(kg\),mean.*\n/g, '')],
    ['two scales', (text: string) => text.replace('weight,ln(kg),mean,male', 'weight,cm,mean,male')],
  ])('are refused when an equation has %s', (_what, edit) => {
    const file = 'intergrowth-very-preterm-equations.csv';
    expect(found(edited(file, edit))).toEqual([`${file}:1 growth-table/broken-equation`]);
  });

  it('are refused for a term that nobody knows the meaning of', () => {
    const file = 'intergrowth-preterm-postnatal-equations.csv';
    expect(found(edited(file, (text) => text.replace('sqrt(pma_weeks)', 'cbrt(pma_weeks)')))).toEqual([
      `${file}:3 growth-table/unknown-word`,
    ]);
  });

  it('are refused without the range of every table', () => {
    expect(found(edited('ranges.csv', (text) => text.replace(/very-preterm.*\n/, '')))).toEqual(['ranges.csv:1 growth-table/no-range']);
    expect(found(edited('ranges.csv', (text) => text.replace('pma_weeks', 'ga_days')))).toEqual(['ranges.csv:4 growth-table/unknown-word']);
  });

  it.each(growthTableFiles)('are refused without %s', (file) => {
    const files = new Map(published);
    files.delete(file);
    expect(found(files)).toEqual([`${file}:1 growth-table/missing-file`]);
  });
});
