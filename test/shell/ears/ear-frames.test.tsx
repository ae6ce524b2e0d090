import {stripVTControlCharacters} from 'node:util';
import {renderToString} from 'ink';
import stringWidth from 'string-width';
import {describe, expect, test} from 'vitest';
import {troubleOf} from '../../../source/listening/trouble.ts';
import {askedPitch} from '../../../source/shell/ears/asked-pitch.ts';
import type {EarEvent} from '../../../source/shell/ears/ears.ts';
import {regionsFor} from '../../../source/shell/regions.ts';
import {Sized} from '../../../source/shell/screen.tsx';
import {seenBy} from '../../../source/shell/seen.ts';
import type {Wizard} from '../../../source/shell/state.ts';
import {startSetup} from '../../../source/shell/wizard.ts';
import {asciiGlyphs, unicodeGlyphs} from '../../../source/terminal/glyphs.ts';
import {LookContext} from '../../../source/terminal/look.tsx';
import {themeFor} from '../../../source/terminal/theme.ts';
import {toAscii} from '../../../source/units/ascii.ts';
import {askingPitch, earPorts, hzOf, pluckAt, told, viewAt} from '../../helpers/ears.ts';
import {hearing} from '../../helpers/hearing.ts';

const ports = earPorts();

function frame(wizard: Wizard, columns: number, rows: number, glyphs = unicodeGlyphs): readonly string[] {
	const tree = (
		<LookContext value={{theme: themeFor('none'), glyphs}}>
			<Sized wizard={wizard} ports={ports} columns={columns} rows={rows} />
		</LookContext>
	);
	return stripVTControlCharacters(renderToString(tree, {columns})).split('\n');
}

const tuning = askingPitch(ports);
const open: EarEvent = {kind: 'open', from: 'parec'};
const listening = told(tuning, ports, 'tab', open);
const allHeard = told(listening, ports, ...[1, 2, 3, 4, 5, 6].map(string => pluckAt(hzOf(string, -70 - string))));
const turnAsked = hearing.turningOf(allHeard, ports);
// Cautions take the table's place until they were read.
const turning = {...turnAsked, cautionsRead: seenBy(turnAsked, ports).task.cautions ?? []};
const {string} = askedPitch(seenBy(turning, ports), turning.entry)!;
const states = {
	'opening the input': told(tuning, ports, 'tab'),
	waiting: told(listening, ports, viewAt()),
	plucked: told(listening, ports, viewAt({phase: 'attack', sinceOnsetS: 0.1})),
	settling: told(listening, ports, viewAt({phase: 'settling', hz: hzOf(1, -12), sdCents: 0.8, settled: 0.6})),
	told: told(
		listening,
		ports,
		pluckAt(hzOf(1, -12)),
		viewAt({phase: 'told', hz: hzOf(1, -12), settled: 1, sinceOnsetS: 1}),
	),
	turning: told(turning, ports, viewAt({phase: 'turning', hz: hzOf(string, -60), sdCents: 0.5})),
	'on the way': told(turning, ports, pluckAt(hzOf(string, -60)), viewAt({phase: 'told', sinceOnsetS: 1, settled: 1})),
	'a question': told(turning, ports, '6', ':', pluckAt(hzOf(6, -20))),
	trouble: told(listening, ports, viewAt({troubles: [troubleOf('hum', '50'), troubleOf('losing-samples')]})),
	typing: told(listening, ports, ...'-1', viewAt({phase: 'settling', hz: 111, sdCents: 2, settled: 0.2})),
} satisfies Record<string, Wizard>;

const earRow = (lines: readonly string[]) => lines.find(line => line.startsWith(' ear ')) ?? '';

describe.each([
	[80, 24],
	[60, 18],
	[120, 40],
	[200, 60],
] as const)('at %d x %d', (columns, rows) => {
	test.each(Object.keys(states))('%s is not clipped', name => {
		const lines = frame(states[name as keyof typeof states], columns, rows);
		expect(lines.length).toBeLessThanOrEqual(rows - 1);
		for (const line of lines) expect(stringWidth(line), line).toBeLessThanOrEqual(columns);
		expect(earRow(lines)).not.toBe('');
		for (let string = 1; string <= 6; string++)
			expect(lines.some(line => line.slice(0, 4).includes(`${string} `))).toBe(true);
		expect(lines.at(-2)).toContain('›');
	});

	test('nothing jumps from one moment to the next', () => {
		const placesOf = (wizard: Wizard) => {
			const lines = frame(wizard, columns, rows);
			return [lines.length, lines.indexOf(earRow(lines)), lines.findIndex(line => line.includes('›'))];
		};
		const first = placesOf(states.waiting);
		for (const wizard of Object.values(states)) expect(placesOf(wizard)).toEqual(first);
	});
});

describe('the row says', () => {
	const row = (name: keyof typeof states) => earRow(frame(states[name], 80, 24));
	test.each<[keyof typeof states, RegExp]>([
		['opening the input', /opening the sound input/],
		['waiting', /^ ear ▰▰▰▰▱▱ {2}pluck string 1/],
		['plucked', /plucked.*settled ▱▱▱▱▱/],
		['settling', /string 1 −12\.0 ±1\.3.*settled ▰▰▰▱▱/],
		['told', /heard string 1: −12\.0 ±0\.2.*settled ▰▰▰▰▰/],
		['turning', new RegExp(`string ${string} −60\\.0, to [+−]\\d`)],
		['on the way', new RegExp(`string ${string}: −60\\.0 ±0\\.2, go (up|down) to [+−]\\d`)],
		['trouble', /▲ hum/],
	])('%s', (name, said) => {
		expect(row(name)).toMatch(said);
	});

	test('and a trouble is a whole sentence above it', () => {
		expect(frame(states.trouble, 80, 24).join(' ').replaceAll(/\s+/g, ' ')).toContain(troubleOf('hum', '50').said);
	});

	test('its question is read whole', () => {
		const said = states['a question'].message!.text;
		expect(said).toContain('Enter takes it');
		expect(frame(states['a question'], 80, 24).join(' ').replaceAll(/\s+/g, ' ')).toContain(said);
	});
});

test('in ASCII every character is', () => {
	for (const wizard of Object.values(states)) {
		const lines = frame(wizard, 60, 18, asciiGlyphs).map(toAscii).join('');
		expect(lines).toMatch(/^[ -~]*$/);
		expect(lines).not.toContain('??');
	}
});

test('the row is given up by others, whatever the size; without listening all is as before', () => {
	for (const strings of [6, 7, 8] as const) {
		for (let rows = 18; rows < 60; rows++) {
			const usual = regionsFor({columns: 80, rows}, strings)!.heights;
			const {heights} = regionsFor({columns: 80, rows}, strings, true)!;
			const sum = (all: typeof heights) => Object.values(all).reduce((total, each) => total + each, 0);
			expect([usual.ear, heights.ear, sum(heights)]).toEqual([0, 1, sum(usual)]);
			for (const name of ['header', 'task', 'strings', 'entry', 'keys', 'plate'] as const)
				expect(heights[name]).toBe(usual[name]);
			expect(heights.message).toBeGreaterThanOrEqual(1);
		}
	}
});

test('at the first question of a set-up it says that no pitch is asked for', () => {
	const intake = told(startSetup(ports, undefined), ports, 'tab', open, pluckAt(hzOf(5)));
	expect(earRow(frame(intake, 80, 24))).toContain('no pitch is asked for here');
});
