import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {exitCodes, helpText, parseCommandLine} from '../source/command-line.ts';

const wish = (...given: readonly string[]) => {
	const parsed = parseCommandLine(given);
	return parsed.ok ? parsed.wish : parsed.said;
};
const manner = (...given: readonly string[]) => {
	const parsed = parseCommandLine(given);
	return parsed.ok ? parsed.manner : parsed.said;
};
const said = (...given: readonly string[]) => {
	const parsed = parseCommandLine(given);
	expect(parsed).toMatchObject({ok: false, exitCode: exitCodes.usage});
	return parsed.ok ? '' : parsed.said;
};

describe('words say what to do', () => {
	test.each<[string[], unknown]>([
		[[], {kind: 'start'}],
		[['open'], {kind: 'open'}],
		[['open', '260131-k7dm'], {kind: 'open', id: '260131-k7dm'}],
		[['practice'], {kind: 'practice'}],
		[['practice', '7'], {kind: 'practice', seed: 7}],
		[['list'], {kind: 'list'}],
		[['history', 'Red seven-string'], {kind: 'history', guitar: 'Red seven-string'}],
		[['recheck', 'Red seven-string'], {kind: 'recheck', guitar: 'Red seven-string'}],
		[['export', 'Red seven-string'], {kind: 'export', guitar: 'Red seven-string'}],
		[['import', 'guitar.json'], {kind: 'import', file: 'guitar.json'}],
		[['import', '-'], {kind: 'import', file: '-'}],
		[['--help'], {kind: 'help'}],
		[['-h'], {kind: 'help'}],
		[['list', '--help'], {kind: 'help'}],
		[['--version'], {kind: 'version'}],
		[['--', 'list'], {kind: 'list'}],
	])('%j', (given, expected) => {
		expect(wish(...given)).toEqual(expected);
	});
});

describe('options say how', () => {
	test('and stand before or after the word', () => {
		const all = {plain: true, ascii: true, noColor: true, store: 'bench'};
		expect(manner('--plain', '--ascii', '--no-color', '--store', 'bench', 'list')).toEqual(all);
		expect(manner('list', '--store=bench', '--no-color', '--ascii', '--plain')).toEqual(all);
		expect(manner()).toEqual({plain: false, ascii: false, noColor: false});
	});
});

describe('listening is asked for by where the sound comes from', () => {
	test.each<[string, unknown]>([
		['live', {kind: 'live'}],
		['live:sox', {kind: 'live', program: 'sox'}],
		['live:guitar.monitor', {kind: 'live', device: 'guitar.monitor'}],
		['live:arecord:hw:1,0', {kind: 'live', program: 'arecord', device: 'hw:1,0'}],
		['take.wav', {kind: 'recording', file: 'take.wav'}],
		['C:\\takes\\one.wav', {kind: 'recording', file: 'C:\\takes\\one.wav'}],
		['-', {kind: 'piped', rawRateHz: 48_000}],
		['-:44100', {kind: 'piped', rawRateHz: 44_100}],
	])('--hear %s', (source, hear) => {
		expect(manner('--hear', source)).toMatchObject({hear});
	});

	test('or not at all', () => {
		expect(manner('practice')).not.toHaveProperty('hear');
		expect(said('--hear')).toContain('--hear needs a SOURCE, for example: --hear live');
		expect(said('--hear', '-:fast')).toContain('sample rate from 8000 to 192000, for example -:44100');
	});
});

describe('a slip is answered with what was probably meant', () => {
	test.each<[string[], string]>([
		[['--plian'], 'Did you mean: evenfloat --plain'],
		[['--no-colour'], 'Did you mean: evenfloat --no-color'],
		[['--sotre', 'x'], 'Did you mean: evenfloat --store'],
		[['--list'], 'Did you mean: evenfloat list'],
		[['--practice', '7'], 'Did you mean: evenfloat practice'],
		[['practise', '7'], 'Did you mean: evenfloat practice'],
		[['exprot', 'x'], 'Did you mean: evenfloat export'],
		[['ls'], 'Words are: open, practice, list, history, recheck, export, import.'],
		[['plain'], 'Did you mean: evenfloat --plain'],
		[['--quantum'], 'Options are: --plain, --hear, --store, --ascii, --no-color, --help, --version.'],
		[['__proto__'], 'Words are:'],
		[['--constructor'], 'Options are:'],
	])('%j', (given, answer) => {
		expect(said(...given)).toContain(answer);
		expect(said(...given)).toContain('evenfloat --help shows all.');
	});
});

describe('what is missing or too much is named, with an example', () => {
	test.each<[string[], string]>([
		[['export'], 'export needs a GUITAR. For example: evenfloat export "Red seven-string"'],
		[['import'], 'import needs a FILE.'],
		[['open', 'a', 'b'], 'open takes one ID; read also b.'],
		[['list', 'x'], 'list takes nothing; read also x.'],
		[['practice', 'x'], 'SEED: read x; allowed is a whole number from 0 to 4294967295.'],
		[['practice', '4294967296'], 'SEED: read 4294967296'],
		[['practice', '1.5'], 'SEED: read 1.5'],
		[['--store'], '--store needs a FOLDER'],
		[['--store='], '--store needs a FOLDER'],
		[['--store', '--plain'], '--store needs a FOLDER'],
		[['--plain=yes'], '--plain takes no value; read yes.'],
	])('%j', (given, answer) => {
		expect(said(...given)).toContain(answer);
	});
});

test('the help text names every word, option and exit code, and fits 80 columns', () => {
	const text = helpText();
	for (const name of [
		'open',
		'practice',
		'list',
		'history',
		'recheck',
		'export',
		'import',
		'--plain',
		'--store',
		'--ascii',
		'--no-color',
		'--help',
		'--version',
	]) {
		expect(text).toContain(`  ${name}`);
	}
	for (const code of Object.values(exitCodes)) expect(text).toContain(`  ${code}  `);
	for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
});

test('law: no command line is met with an exception', () => {
	const part = fc.oneof(
		fc.string(),
		fc.constantFrom('--', '-', '--store', '--plain', '-hv', 'open', 'practice', '=', '--='),
	);
	fc.assert(
		fc.property(fc.array(part, {maxLength: 6}), given => {
			const parsed = parseCommandLine(given);
			if (!parsed.ok) expect(parsed.said.length).toBeGreaterThan(10);
		}),
		{numRuns: 500},
	);
});
