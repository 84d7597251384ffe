// What the Drawing needs for a site, and for two views at once: fetched when the first of them is shown.
export { pairViews } from '../figures/first-angle.ts';
export { drawInSite } from '../figures/site.ts';
export { speakSite } from '../words/site-drawing.ts';
export { default as SiteHandles } from './SiteHandles.svelte';
