/** What the page's policy asks of whatever becomes script or markup; not every browser does. */
interface TrustedTypes {
  createPolicy(name: 'default', rules: Record<string, (text: string) => string | null>): unknown;
}

// Workers come from where the page comes from. No text becomes markup, but for the nothing that konva empties its place with.
(globalThis as { trustedTypes?: TrustedTypes }).trustedTypes?.createPolicy('default', {
  createScriptURL: (url) => (new URL(url, location.href).origin === location.origin ? url : null),
  createHTML: (html) => (html === '' ? html : null)
});
