/** The part of the validator's interface that is used here: it brings no types of its own. */
declare module 'gltf-validator' {
  export interface Report {
    readonly issues: {
      readonly numErrors: number;
      readonly numWarnings: number;
      readonly messages: readonly { readonly code: string; readonly message: string; readonly severity: number }[];
    };
    readonly info: { readonly generator?: string };
  }
  export function validateBytes(bytes: Uint8Array, options: { readonly maxIssues?: number }): Promise<Report>;
}
