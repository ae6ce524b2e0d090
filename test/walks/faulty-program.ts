import {runFullScreen} from '../../source/shell/full-screen.tsx';
import type {Ports} from '../../source/shell/ports.ts';
import {lookFor} from '../../source/terminal/look.tsx';
import {simplePorts, simpleSitting} from '../helpers/simple-wizard.ts';

// A wizard with faults: an answer `boom` breaks what Enter does, `>` what is drawn, `delayed` and
// `promised` something that nobody waits for; EVENFLOAT_TEST_EARS breaks the ears it begins with.
const ports = simplePorts();
const [names, readings] = ports.stages;
let isBroken = false;

type Writable<T> = {-readonly [K in keyof T]: T[K]};

const broken: Writable<Ports> = {
	...ports,
	stages: [
		names!,
		{
			...readings!,
			answer(text, task, bench, extra) {
				if (text === 'boom') throw new Error('the bench broke');
				if (text === 'delayed') setTimeout(() => throwNow(), 1);
				if (text === 'promised') void Promise.reject(new Error('the bench broke'));
				return readings!.answer(text, task, bench, extra);
			},
			keys(bench, task) {
				return [
					...readings!.keys(bench, task).filter(({key}) => key !== '>'),
					{key: '>', label: 'break', does: {kind: 'deeds', deeds: [{type: 'ItemTicked', item: 'break', done: true}]}},
				];
			},
		},
	],
	benchOf(story, learned) {
		const bench = ports.benchOf(story, learned);
		if (bench.ticked.break) isBroken = true;
		return {
			...bench,
			forecast(act) {
				if (isBroken) throw new Error('the bench broke');
				return bench.forecast(act);
			},
		};
	},
};

function throwNow(): never {
	throw new Error('the bench broke');
}

const isDeaf = process.env.EVENFLOAT_TEST_EARS === 'broken';
const first = simpleSitting(broken);
if (isDeaf) broken.ears = {startsOn: true, hasEnd: false, open: throwNow};

const ending = await runFullScreen(isDeaf ? {...first, ear: {nows: 0}} : first, {
	ports: broken,
	look: lookFor(process.env, 8),
	stdin: process.stdin,
	stdout: process.stdout,
	onSignal: (_, exitCode) => process.exit(exitCode),
});
for (const text of ending.left.said) console.log(text);
if (ending.kind === 'fault') console.log(`a fault of its own: ${ending.error.message}`);
process.exitCode = ending.kind === 'fault' ? 1 : 0;
