import { expect, type Locator, type Page } from '@playwright/test';

export type View = 'Drawing' | 'Marks' | 'Assembly' | 'Preview';

/** The setting-out page as a person uses it. */
export class SettingOutPage {
  readonly #page: Page;

  constructor(page: Page) {
    this.#page = page;
  }

  /** Opens the page and waits until the first fitting can be dragged. */
  async open(): Promise<void> {
    await this.#page.goto('./');
    await expect(this.handle('turn').or(this.handle('length')).first()).toBeVisible();
  }

  async reload(): Promise<void> {
    await this.#page.reload();
    await expect(this.#page.locator('[data-handle]').first()).toBeVisible();
  }

  view(name: View): Locator {
    return this.#page.getByRole('region', { name, exact: true });
  }

  /** Shows a view where there is no room for all. */
  async turnTo(name: View): Promise<void> {
    await this.#page.getByRole('button', { name, exact: true }).click();
    await expect(this.view(name)).toBeVisible();
  }

  handle(id: string): Locator {
    return this.#page.locator(`[data-handle="${id}"]`);
  }

  field(label: string): Locator {
    return this.#page.getByRole('textbox', { name: label, exact: false });
  }

  button(name: string): Locator {
    return this.#page.getByRole('button', { name, exact: true });
  }

  /** Presses a handle and moves it, in several moves; the pointer stays down. */
  async pull(id: string, by: { x: number; y: number }): Promise<void> {
    const box = await this.handle(id).boundingBox();
    if (!box) throw new Error(`the handle ${id} is not in sight`);
    const from = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    await this.#page.mouse.move(from.x, from.y);
    await this.#page.mouse.down();
    await this.#page.mouse.move(from.x + by.x, from.y + by.y, { steps: 12 });
    // The page gathers moves until the next frame.
    await this.#page.evaluate(
      () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))
    );
  }

  async release(): Promise<void> {
    await this.#page.mouse.up();
  }

  async escape(): Promise<void> {
    await this.#page.keyboard.press('Escape');
  }

  async chooseFitting(tag: string): Promise<void> {
    await this.#page.getByRole('navigation', { name: 'Fittings' }).getByRole('button', { name: tag }).click();
  }

  /** The miter that each of the four views says, in degrees, as a reader of the page sees it. */
  async readMiters(): Promise<Record<View, string>> {
    const read = async (name: View): Promise<string> => {
      const text = (await this.view(name).textContent()) ?? '';
      return /miter ([\d.]+°)/.exec(text)?.[1] ?? 'none';
    };
    return {
      Drawing: await read('Drawing'),
      Marks: await read('Marks'),
      Assembly: await read('Assembly'),
      Preview: await read('Preview')
    };
  }

  async expectSaved(): Promise<void> {
    await expect(this.#page.locator('[data-saving=saved]')).toBeVisible();
  }

  /** How much wider the page is than the screen, px. */
  async measureOverflow(): Promise<number> {
    return this.#page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth
    );
  }
}
