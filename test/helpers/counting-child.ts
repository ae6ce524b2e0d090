// A program of its own that reads a number from a file and writes the next
// one, again and again, each time inside the guard. Given folder and how often.
import {readFileSync, writeFileSync} from 'node:fs';
import path from 'node:path';
import {guarded} from '../../source/storage/guard.ts';
import {newOwner} from '../../source/storage/owner.ts';

const [folder, times] = process.argv.slice(2);
const file = path.join(folder!, 'count');
const owner = newOwner(0);
for (let time = 0; time < Number(times); time++) {
	guarded(path.join(folder!, 'count.guard'), owner, () => {
		writeFileSync(file, String(Number(readFileSync(file, 'utf8')) + 1));
	});
}
