/**
 * `npm run bench`: how quick the program is, at the real terminal and inside.
 * `npm run bench -- --save` keeps the tables in `test/bench/results/speed.txt`.
 */
import {writeFileSync} from 'node:fs';
import os from 'node:os';
import {builtPrograms} from './screen/built.ts';
import {keyTimes} from './screen/key-times.ts';
import {startTimes} from './screen/start-times.ts';
import {updateTimes} from './screen/update-times.ts';

const programs = await builtPrograms();
const [processor] = os.cpus();
const [load] = os.loadavg();
const parts = [
	`${os.cpus().length} x ${processor?.model ?? 'processor unknown'}, Node ${process.versions.node}; other programs kept ${load!.toFixed(1)} processors busy at the start.`,
	'Times are by the clock, so they hold what other programs took; what is bare was measured in turn with ours. Work is what the main thread did for a key, whatever else ran.',
	await startTimes(programs, 20),
	await keyTimes(programs, {columns: 80, rows: 24}, 30),
	await keyTimes(programs, {columns: 120, rows: 40}, 30),
	updateTimes(),
	`Learning and advice do not grow with the session: a belief is kept for every fact. What grows is the replay of the
whole story, when a session is opened or its sheet is changed: one step of learning a fact.`,
];
const text = `${parts.join('\n\n')}\n`;
process.stdout.write(text);
if (process.argv.includes('--save')) writeFileSync('test/bench/results/speed.txt', text);
