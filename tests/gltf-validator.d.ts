// The validator comes without types.
declare module 'gltf-validator' {
  export interface Report {
    readonly issues: {
      readonly numErrors: number;
      readonly numWarnings: number;
      readonly numInfos: number;
      readonly numHints: number;
      readonly messages: readonly { readonly code: string; readonly message: string }[];
    };
  }
  export function validateBytes(bytes: Uint8Array, options?: { readonly format?: 'glb' }): Promise<Report>;
}
