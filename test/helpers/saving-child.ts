// A program of its own that stores one fact after another as fast as it can,
// and says so after each: `stored N`. Given folder, set-up id, and how many.
import {writeSync} from 'node:fs';
import {record} from '../../source/session/journal.ts';
import {openStore} from '../../source/storage/store.ts';

const [folder, id, most] = process.argv.slice(2);

/** Straight to the pipe, so that what was said is true at any kill. A reader that is late leaves the pipe full (EAGAIN): wait. */
function print(line: string): void {
	let rest = Buffer.from(`${line}\n`);
	while (rest.length > 0) {
		try {
			rest = rest.subarray(writeSync(1, rest));
		} catch (error) {
			if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') throw error;
			Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
		}
	}
}

const opened = openStore({folder: folder!, now: () => Date.now()});
if (!opened.ok) throw new Error(opened.said);
const {store} = opened;
const claim = store.claim(id!);
print(claim.held ? 'held' : `not held, by ${claim.by.pid}`);
const loaded = store.load(id!);
if (!loaded.ok) throw new Error(loaded.said);
let {journal} = loaded;
print(`loaded ${journal.story.length}`);
for (let count = 0; count < Number(most); count++) {
	const number = journal.story.length + 1;
	journal = record(journal, [{type: 'NoteWritten', text: `fact ${number} ${'x'.repeat(200)}`}], Date.now());
	const saved = store.save(id!, journal);
	if (!saved.ok) {
		print(`refused ${saved.said}`);
		print(`kept ${JSON.stringify(journal)}`);
		process.exit(1);
	}
	print(`stored ${number}`);
}
print('done');
