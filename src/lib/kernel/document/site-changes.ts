import type { Obstacle, Site, SiteEnd } from '../site/site.ts';

/** What can be done to the site of a document. `obstacle` is its place in the list, from 0. */
export type SiteChange =
  | { readonly kind: 'add-obstacle'; readonly obstacle: Obstacle }
  | { readonly kind: 'set-obstacle'; readonly obstacle: number; readonly to: Obstacle }
  | { readonly kind: 'remove-obstacle'; readonly obstacle: number }
  | { readonly kind: 'set-site-end'; readonly end: Partial<SiteEnd> };

/** The site after a change; what is not changed stays the same object. */
export function changeSite(site: Site, change: SiteChange): Site {
  switch (change.kind) {
    case 'add-obstacle':
      return { ...site, obstacles: [...site.obstacles, change.obstacle] };
    case 'set-obstacle':
      expectObstacle(site, change.obstacle);
      return {
        ...site,
        obstacles: site.obstacles.map((obstacle, i) => (i === change.obstacle ? change.to : obstacle))
      };
    case 'remove-obstacle':
      expectObstacle(site, change.obstacle);
      return { ...site, obstacles: site.obstacles.filter((_, i) => i !== change.obstacle) };
    case 'set-site-end':
      return { ...site, end: { ...site.end, ...change.end } };
  }
}

function expectObstacle({ obstacles }: Site, at: number): void {
  if (!obstacles[at]) throw new Error(`no obstacle ${at} among ${obstacles.length}`);
}
