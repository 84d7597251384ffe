// npm run bench: figures beside a peer in the same run. They are printed with their goals; nothing passes or fails here.
import { benchDrag } from '../browser/drag-bench.ts';
import { benchKernel } from './kernel.ts';
import { tellChecksum } from './timing.ts';

console.log(`Node ${process.version}`);
benchKernel();
console.log(tellChecksum());
await benchDrag();
