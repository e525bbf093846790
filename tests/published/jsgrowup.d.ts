// What the growth oracle of growth-second-oracle.test.ts offers; the package ships no types.

declare module 'jsgrowup' {
  interface Row {
    readonly L: string;
    readonly M: string;
    readonly S: string;
  }
  type Tables = Readonly<Record<string, Readonly<Record<string, Row>>>>;
  class Calculator {
    constructor(adjustHeightData: boolean, adjustWeightScores: boolean, tables: Tables);
    zscoreForMeasurement(indicator: string, measurement: number, ageInMonths: number, sex: 'M' | 'F'): number;
  }
  const jsgrowup: { buildTablesObject(includeCdc: boolean): Promise<Tables>; Calculator: typeof Calculator };
  export default jsgrowup;
}
