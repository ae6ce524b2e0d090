import type {Rng} from '../../source/numeric/rng.ts';
import {openingKeys} from '../../source/shell/opening-keys.ts';
import type {Ports} from '../../source/shell/ports.ts';
import {seenBy} from '../../source/shell/seen.ts';
import {sittingKeys} from '../../source/shell/sitting-keys.ts';
import type {Opening, Sitting} from '../../source/shell/state.ts';
import {strokesOfText} from '../../source/terminal/strokes.ts';
import {formatNumber} from '../../source/units/number.ts';
import {chance, pick, whole} from './chance.ts';
import {namedKeys} from './keys.ts';

/** What is done next: keys one after the other, or a paste. */
export type Doing = {readonly keys: readonly string[]} | {readonly paste: string};

/**
 * A person who does what is asked, sometimes something else that is offered,
 * and sometimes lets a cat walk over the keys.
 *
 * @param diligence Share of doings that are what was asked, 0 to 1.
 */
export function nextDoing(rng: Rng, wizard: Opening | Sitting, ports: Ports, diligence: number): Doing {
	if (wizard.screen === 'opening') return atOpening(rng, wizard);
	if (chance(rng, diligence)) return asAsked(rng, wizard, ports);
	const kind = rng.uniform();
	if (kind < 0.4) return offered(rng, wizard, ports);
	if (kind < 0.65) return {keys: typed(rng, someEntry(rng, wizard, ports))};
	if (kind < 0.75) return {paste: somePaste(rng, wizard, ports)};
	return {keys: [someKey(rng)]};
}

function atOpening(rng: Rng, opening: Opening): Doing {
	if (chance(rng, 0.3)) return {keys: [someKey(rng)]};
	if (opening.naming && chance(rng, 0.7)) return {keys: typed(rng, pick(rng, words))};
	const keys = openingKeys(opening).filter(({command}) => command.kind !== 'leave' || chance(rng, 0.1));
	return {keys: [pick(rng, pick(rng, keys).strokes)]};
}

/** The simulated hands, Enter where it says what it does, else an answer that can be meant. */
function asAsked(rng: Rng, sitting: Sitting, ports: Ports): Doing {
	const {bench, task, isPractice} = seenBy(sitting, ports);
	const clear = sitting.entry.text === '' ? [] : ['escape'];
	if (sitting.asking) return {keys: [pick(rng, ['enter', '!', 'y', 'escape', 'n'])]};
	if (isPractice && task.practice && chance(rng, 0.9)) return {keys: [...clear, ' ']};
	if (task.enter && chance(rng, 0.8)) return {keys: [...clear, 'enter']};
	const row = bench.strings.find(({string}) => string === task.string);
	const cents = task.act?.kind === 'turn' ? task.act.toCents : (row?.now?.mean ?? whole(rng, -60, 20));
	const reading = formatNumber(cents + 2 * rng.normal(), 1);
	return {keys: [...clear, ...typed(rng, task.string && chance(rng, 0.9) ? reading : (task.example ?? reading))]};
}

function offered(rng: Rng, sitting: Sitting, ports: Ports): Doing {
	const keys = sittingKeys(sitting, seenBy(sitting, ports)).filter(
		({command}) => !['leave', 'list'].includes(command.kind) || chance(rng, 0.08),
	);
	return {keys: [pick(rng, pick(rng, keys).strokes)]};
}

function typed(rng: Rng, text: string): readonly string[] {
	const strokes = [...text].slice(0, 60);
	return chance(rng, 0.9) ? [...strokes, 'enter'] : strokes;
}

/** What might be typed where a reading, a measure or words are asked for. */
function someEntry(rng: Rng, sitting: Sitting, ports: Ports): string {
	const {bench, task} = seenBy(sitting, ports);
	const string = whole(rng, 0, 9);
	const cents = formatNumber(rng.normal() * 10 ** whole(rng, 0, 3), whole(rng, 0, 2));
	const note = pick(rng, bench.strings).note;
	return pick(rng, [
		cents,
		cents.replace('.', ','),
		`${string}: ${cents}`,
		`${string}:`,
		`${cents} ${cents}`,
		`${note} ${cents}`,
		note,
		`${formatNumber(80 * 2 ** (rng.uniform() * 3), 1)}hz`,
		`${formatNumber(rng.normal() * 3, 2)} mm`,
		`${formatNumber(rng.normal() / 5, 3)} in`,
		`${whole(rng, 0, 30)}`,
		`${whole(rng, 1, 20)} ${pick(rng, [...words, cents])}`,
		'9 11 16 26 36 46',
		'10-46',
		'D standard',
		'drop D',
		'E4 B3 G3 D3 A2 E2',
		task.example ?? '0',
		`${task.example ?? ''}!`,
		...words,
	]);
}

const words = [
	'eleven',
	'nines',
	'tens',
	'change',
	'restring',
	'inch',
	'lbf',
	'back',
	'skip',
	'none',
	'yes',
	'no',
	'all',
	'0',
	'-0',
	'NaN',
	'Infinity',
	'-Infinity',
	'1e308',
	'1e-308',
	'9'.repeat(50),
	`-${'9'.repeat(18)}.5`,
	'0x10',
	'1/0',
	'−12', // the sign that the program prints
	'+ - + -',
	'____',
	'<script>alert(1)</script> & "quoted", \'so\'',
	'../../etc/passwd',
	'%s %d $HOME \\n',
	'Ωé́ñ', // letters with marks of their own
	'e\u0301\u0301\u0301\u0301',
	'\u{1F3B8}\u{1F468}‍\u{1F469}‍\u{1F467}',
	'\u202Eright to left',
	'字字字字字字字字字字字字字字字字字字字字',
	'\u200B\u200B',
	'\uFFFD',
	'\uD800', // half of a pair
];

function somePaste(rng: Rng, sitting: Sitting, ports: Ports): string {
	const some = () => someEntry(rng, sitting, ports);
	return pick(rng, [
		`${some()}\r`,
		`${some()}\n${some()}\r\n${some()}\n`,
		some(),
		'',
		'\n',
		'\r\r\r\r\r\r',
		'q',
		'u\n',
		'!\n',
		'\u0007\u001B[31mred\u001B[0m\u001B[2J',
		'\u0000\u0001\u0002\u007F\u009B31m',
		'\t-12\t+3\t',
		'-12 '.repeat(200),
		'\u{1F3B8}'.repeat(300),
		`${'x'.repeat(20_000)}\n`,
		`${'1\n'.repeat(40)}`,
	]);
}

/** Any key at all; those that leave come seldom. */
function someKey(rng: Rng): string {
	if (chance(rng, 0.02)) return pick(rng, ['q', 'ctrl+c', 'l']);
	if (chance(rng, 0.4)) return pick(rng, namedKeys);
	return pick(rng, [
		...strokesOfText('0123456789+-.,:;!?<>#=*/()[]{}"\'|~^°&%$@ abcdefghijkmnoprstuvwxyzABCDEFGHXYZ'),
		'é',
		'\u0301',
		'\u{1F3B8}',
		'字',
		'\uD800',
		'\u200D',
	]);
}
