import { writeRequest, type ExportRequest, type ExportStep } from '../exports/request.ts';

const post = (step: ExportStep): void => postMessage(step);

/** Writes one export after another; what fails is thrown where the page hears it. */
addEventListener('message', ({ data }: MessageEvent<ExportRequest>) => {
  writeRequest(data, (done, of) => post({ done, of })).then(
    (written) => post({ written }),
    (error: unknown) =>
      setTimeout(() => {
        throw error;
      })
  );
});
