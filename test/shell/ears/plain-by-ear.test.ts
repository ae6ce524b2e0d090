import {PassThrough} from 'node:stream';
import {describe, expect, test} from 'vitest';
import {runPlain} from '../../../source/shell/plain.ts';
import type {Sitting} from '../../../source/shell/state.ts';
import {storeDeeds} from '../../../source/shell/store-deeds.ts';
import {askingPitch, earPorts, fakeEars, hzOf, pluckAt, viewAt} from '../../helpers/ears.ts';

/** The wizard line by line with ears that a test speaks into. */
function running({hasEnd = false, from = (sitting: Sitting) => sitting} = {}) {
	const ears = fakeEars({startsOn: true, hasEnd});
	const ports = earPorts(ears);
	const input = new PassThrough();
	const said: string[] = [];
	const first = from(askingPitch(ports));
	const ended = runPlain(first, {ports, input, say: text => said.push(text)});
	return {
		ears,
		ended,
		said,
		ports,
		id: first.id,
		story: () => ports.store.journals.get(first.id)?.story ?? [],
		type: (line: string) => input.write(`${line}\n`),
		end: () => input.end(),
		/** Everything said since the last time. */
		news: () => said.splice(0).join('\n'),
		/** Resolves once something like it was said. */
		async until(text: string) {
			for (let turn = 0; !said.join('\n').includes(text); turn++) {
				if (turn > 5000) throw new Error(`not said: ${text}\n${said.join('\n')}`);
				await new Promise(resolve => setImmediate(resolve));
			}
		},
	};
}

describe('line by line, listening', () => {
	test('what is heard is printed and stored, and the next thing is asked for', async () => {
		const {ears, news, story, end, ended} = running();
		news();
		ears.tell({kind: 'open', from: 'parec'});
		ears.tell(pluckAt(hzOf(1, -12.34)));
		const lines = news();
		expect(lines).toMatch(/^heard string 1: −12\.3 ±0\.2\nStored: string 1 \(E4\) heard −12\.3 cents\.\n/);
		expect(lines).toContain('Pluck string 2 (B3), do not turn it.');
		expect(story().at(-1)).toMatchObject({string: 1, cents: -12.34, heard: {sdCents: 0.1}});
		end();
		expect(await ended).toMatchObject({kind: 'left', inputEnded: true});
		expect(ears.isOpen()).toBe(false);
	});

	test('views are not worth a line', () => {
		const {ears, news} = running();
		news();
		ears.tell({kind: 'open', from: 'parec'});
		for (let time = 0; time < 30; time++) ears.tell(viewAt({phase: 'settling', hz: 300 + time, sdCents: 2}));
		expect(news()).toBe('');
	});

	test('typing goes on, and a star stops and starts listening', async () => {
		const {ears, type, until, news, story, end, ended} = running();
		type('-7');
		await until('string 1 (E4) read −7.0 cents');
		type('*');
		await until('Stopped listening');
		expect(ears.isOpen()).toBe(false);
		news();
		type('*');
		await until('Listening');
		expect(ears.isOpen()).toBe(true);
		ears.tell({kind: 'trouble', trouble: {code: 'no-device', said: 'parec found no input.', isFatal: true}});
		await until('parec found no input.');
		type('-8');
		await until('string 2 (B3) read −8.0 cents');
		end();
		await ended;
		expect(story().filter(({type}) => type === 'PitchRead')).toHaveLength(2);
	});

	test('a surprise is asked about; an empty line takes it', async () => {
		const {ears, type, until, story, ports, end, ended} = running({
			from: sitting => {
				const ports = earPorts();
				return storeDeeds(sitting, [{type: 'PitchRead', string: 1, how: 'open', cents: -5, entered: '-5'}], ports);
			},
		});
		type('1:');
		await until('Turn string 1');
		type('t');
		await until('only plucked string 1');
		const before = story().length;
		ears.tell(pluckAt(hzOf(1, 60)));
		await until('Enter takes it');
		expect(story()).toHaveLength(before);
		type('');
		await until('Stored: string 1 (E4) heard +60.0 cents');
		expect(ports.store.list()).toHaveLength(1);
		end();
		await ended;
	});

	test('when the lines end, a recording is heard out', async () => {
		const {ears, end, ended, story} = running({hasEnd: true});
		ears.tell({kind: 'open', from: 'take.wav'});
		end();
		await new Promise(resolve => setImmediate(resolve));
		ears.tell(pluckAt(hzOf(1, -12)));
		ears.tell(pluckAt(hzOf(2, -13)));
		ears.tell({kind: 'end', from: 'take.wav'});
		expect(await ended).toMatchObject({kind: 'left', inputEnded: true});
		expect(story().filter(({type}) => type === 'PitchRead')).toHaveLength(2);
	});
});
