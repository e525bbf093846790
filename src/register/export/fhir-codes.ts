// The shape of the codes that an export speaks to other systems in. The values, each with its source, are in
// flows/reference/fhir-codes.yaml. Next: fhir-concepts.ts.

export interface LoincCodes {
  /** The general code first, then a more exact one. */
  readonly codings: readonly {
    readonly code: string;
    readonly display: string;
    /** Where the code was seen beside its meaning, or that it is from memory. */
    readonly source: string;
  }[];
  /** The protocol's. */
  readonly unit: string;
  readonly category: 'vital-signs' | 'exam' | 'laboratory';
}

export interface FhirCodes {
  /** Begins the names of this project's own code systems and identifiers. */
  readonly base: string;
  /** Unit of the protocol -> UCUM. */
  readonly ucum: ReadonlyMap<string, string>;
  /** Finding or field -> its codes. What is not in it goes out under its own name. */
  readonly loinc: ReadonlyMap<string, LoincCodes>;
}
