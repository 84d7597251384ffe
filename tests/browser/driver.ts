import { expect, test as bare, type Locator, type Page } from '@playwright/test';
import type { Job } from '../../src/lib/kernel/document/job.ts';

export type View = 'Drawing' | 'Marks' | 'Assembly' | 'Preview';

/** A test that fails where the page reported an error meanwhile. */
export const test = bare.extend<{ errors: string[] }>({
  errors: [
    async ({ page }, run) => {
      const seen: string[] = [];
      page.on('pageerror', (error) => seen.push(error.message));
      page.on('console', (message) => message.type() === 'error' && seen.push(message.text()));
      await run(seen);
      expect(seen).toEqual([]);
    },
    { auto: true }
  ]
});

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
    await this.#page
      .getByRole('navigation', { name: 'Fittings' })
      .getByRole('button', { name: new RegExp(`^${tag}\\b`) })
      .click();
  }

  /** The tags of the job's fittings, in the order of the list. */
  async listTags(): Promise<string[]> {
    return this.#page.getByRole('navigation', { name: 'Fittings' }).locator('strong').allTextContents();
  }

  async addFitting(family: string): Promise<void> {
    await this.button('Add a fitting').click();
    await this.button(family).click();
  }

  /** Taps an entry of the job's menu. */
  async askJob(entry: string): Promise<void> {
    await this.button('Job').click();
    await this.button(entry).click();
  }

  /** Opens a file by the menu, as the browser's own chooser gives it. */
  async openFile(name: string, text: string): Promise<void> {
    const [chooser] = await Promise.all([this.#page.waitForEvent('filechooser'), this.askJob('Open …')]);
    await chooser.setFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
  }

  /** Lets a file fall on the page. */
  async dropFile(name: string, text: string): Promise<void> {
    const dataTransfer = await this.#page.evaluateHandle(
      (file) => {
        const transfer = new DataTransfer();
        transfer.items.add(new File([file.text], file.name, { type: 'application/json' }));
        return transfer;
      },
      { name, text }
    );
    await this.#page.dispatchEvent('main', 'dragover', { dataTransfer });
    await expect(this.#page.getByText('Drop the file')).toBeVisible();
    await this.#page.dispatchEvent('main', 'drop', { dataTransfer });
    await expect(this.#page.getByText('Drop the file')).toHaveCount(0);
  }

  /** Chooses in the menu of the units, which stays open until it is left. */
  async chooseUnits(name: string): Promise<void> {
    await this.#page.getByRole('button', { name: 'Units' }).click();
    await this.#page.getByRole('radio', { name }).check();
    await this.escape();
  }

  /** The job as it is kept in the browser. */
  async readSaved(): Promise<Job> {
    await this.expectSaved();
    return JSON.parse(String(await this.readKept('gorewright-job'))) as Job;
  }

  /** What is kept in the browser under a name; undefined where nothing is. */
  async readKept(name: string): Promise<unknown> {
    return this.#page.evaluate(
      (key) =>
        new Promise<unknown>((done, fail) => {
          const open = indexedDB.open('keyval-store');
          open.onerror = () => fail(open.error);
          open.onsuccess = () => {
            const read = open.result.transaction('keyval').objectStore('keyval').get(key);
            read.onsuccess = () => done(read.result);
          };
        }),
      name
    );
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
