import {PassThrough, Readable} from 'node:stream';
import {describe, expect, test} from 'vitest';
import type {Bench} from '../../source/session/bench.ts';
import {runPlain} from '../../source/shell/plain.ts';
import type {Left, Wizard} from '../../source/shell/state.ts';
import {opening, presses, simplePorts, simpleSitting} from '../helpers/simple-wizard.ts';

async function walk(first: (ports: ReturnType<typeof simplePorts>) => Wizard, lines: readonly string[]) {
	const ports = simplePorts();
	const said: string[] = [];
	const input = Readable.from(lines.map(line => `${line}\n`));
	const end = await runPlain(first(ports), {ports, input, say: text => said.push(text)});
	const story = [...ports.store.journals.values()].at(-1)?.story ?? [];
	if (end.kind === 'fault') throw end.error;
	return {left: end.left, inputEnded: end.inputEnded ?? false, said, all: said.join('\n'), story};
}

describe('line by line', () => {
	test('the same questions are asked, one prompt a line, and the answers are the same facts', async () => {
		const {said, story, all} = await walk(simpleSitting, ['Blue one', '', '-12', '5: +3']);
		expect(story.map(({type}) => type)).toEqual([
			'SheetFilled',
			'SheetFilled',
			'StagePassed',
			'PitchRead',
			'PitchRead',
		]);
		expect(story.at(-1)).toMatchObject({string: 5, cents: 3});
		expect(said.filter(text => text.endsWith('>'))).toHaveLength(5);
		expect(all).toContain('What is the guitar called?');
		expect(all).toContain('Caution: String ends are sharp.');
		expect(all).toContain('Before you do: Turning string 1 moves the others (cents): 2:−3.1±0.7');
	});

	test('the end of the input leaves, with everything stored', async () => {
		const {left, inputEnded, story} = await walk(simpleSitting, ['Blue one', '', '-12']);
		expect(inputEnded).toBe(true);
		expect(left.isFinished).toBe(false);
		expect(left.said.join(' ')).toContain('evenfloat open');
		expect(story.at(-1)).toMatchObject({cents: -12});
	});

	test('keys of the full screen are commands here', async () => {
		const {story, all, inputEnded} = await walk(simpleSitting, ['Blue one', '', '-12', 'u', 'r', '?', 'o', 'q', '-99']);
		expect(story.at(-1)).toMatchObject({cents: -12});
		expect(all).toContain('Taken back: string 1 (E4) read −12.0 cents');
		expect(all).toContain('Put back');
		expect(all).toContain('takes the last entry back');
		expect(all).toContain('What moves what');
		expect(inputEnded).toBe(false);
	});

	test('where words are asked for, a letter is a word and a colon makes it a key', async () => {
		const {story, left} = await walk(simpleSitting, ['q', ':u', 'Red', ':q']);
		expect(story.at(-1)).toMatchObject({sheet: {name: 'Red'}});
		expect(left.screen).toBe('left');
	});

	test('the prompt names the key as it has to be typed', async () => {
		const ports = simplePorts();
		const practice: Wizard = {...simpleSitting({...ports, firstSheet: () => ports.firstSheet(7)})};
		const said: string[] = [];
		const words = {...ports.stages[0]!, task: (bench: Bench) => ({...ports.stages[1]!.task(bench), freeText: true})};
		const input = Readable.from([':p\n']);
		await runPlain(practice, {ports: {...ports, stages: [words]}, input, say: text => said.push(text)});
		expect(said.find(text => text.endsWith('>'))).toContain(':p: the simulated hands do it');
		expect(said.join(' ')).toContain('string 1 (E4) read −7.0 cents');
	});

	test('a surprise is asked about; an empty line or ! means it, another answer replaces it', async () => {
		expect((await walk(simpleSitting, ['Blue', '', '-400', ''])).story.at(-1)).toMatchObject({cents: -400});
		expect((await walk(simpleSitting, ['Blue', '', '-400', '!'])).story.at(-1)).toMatchObject({cents: -400});
		expect((await walk(simpleSitting, ['Blue', '', '-400', '-40'])).story.at(-1)).toMatchObject({cents: -40});
	});

	test('a key that asks first takes yes and no', async () => {
		expect((await walk(simpleSitting, ['Blue', '', '>', 'no'])).story.at(-1)).toMatchObject({
			type: 'StagePassed',
			stage: 'names',
		});
		expect((await walk(simpleSitting, ['Blue', '', '>', 'yes'])).left.isFinished).toBe(true);
	});

	test('the table is said when asked for, and a note is stored', async () => {
		const {all, story} = await walk(simpleSitting, ['Blue', '', 'table', 'n', 'p is worn']);
		expect(all).toContain('String 6, E2 110.00 Hz');
		expect(story.at(-1)).toMatchObject({type: 'NoteWritten', text: 'p is worn'});
	});

	test('the first screen is chosen from by number', async () => {
		const {all, story} = await walk(opening, ['2', 'p']);
		expect(all).toContain('1  New set-up');
		expect(story[0]).toMatchObject({sheet: {practiceSeed: 7}});
		const named = await walk(
			ports => presses(simpleSitting(ports), ports, 'Blue\r', 'ctrl+c') && opening(ports),
			['n 4', 'Green', 'x 4', 'no', 'x4', 'yes', 'q'],
		);
		expect(named.all).toContain('Now called “Green”');
		expect(named.all).toContain('Delete this set-up');
		expect(named.all).toContain('Left as it was.');
		expect(named.all).toContain('Deleted.');
	});

	test.each(['0', '99', 'x 0', 'n 99', 'hello', '-1', '1 2', '1.5'])(
		'%j on the first screen is no line of it: said, and nothing happens',
		async text => {
			const {all, story, inputEnded} = await walk(opening, [text]);
			expect(all).toContain(`Read “${text}”. Type the number of a line, ? for help, or q to leave.`);
			expect(story).toEqual([]);
			expect(inputEnded).toBe(true);
		},
	);

	test('told to leave from outside, it says where everything is, and lets go of the set-up', async () => {
		const ports = simplePorts();
		const input = new PassThrough();
		let leaveNow: (() => Left) | undefined;
		let isStopped = false;
		const running = runPlain(simpleSitting(ports), {
			ports,
			input,
			say: () => {},
			untilHangUp(way) {
				leaveNow = way;
				return () => {
					isStopped = true;
				};
			},
		});
		expect(leaveNow?.().said).toEqual(['Nothing was entered, so nothing is stored.']);
		input.end('Blue one\n');
		const end = await running;
		expect(end.left.said.join(' ')).toContain('evenfloat open');
		expect(isStopped).toBe(true);
	});

	test('a fault leaves like everything else: the set-up let go, the place said', async () => {
		const ports = simplePorts();
		const broken = {
			...ports,
			decide: () => {
				throw new Error('the bench broke');
			},
		};
		const end = await runPlain(simpleSitting(broken), {
			ports: broken,
			input: Readable.from(['Blue one\n']),
			say: () => {},
		});
		expect(end).toMatchObject({kind: 'fault', left: {screen: 'left'}, error: {message: 'the bench broke'}});
	});
});
