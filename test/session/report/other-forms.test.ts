import {readFileSync} from 'node:fs';
import {Ajv2020} from 'ajv/dist/2020.js';
import {describe, expect, test} from 'vitest';
import type {Deed} from '../../../source/session/facts.ts';
import {sheetCsv} from '../../../source/session/report/as-csv.ts';
import {sheetHtml} from '../../../source/session/report/as-html.ts';
import {niceStep, ticks} from '../../../source/session/report/pictures/svg.ts';
import {setUpSheet} from '../../../source/session/report/set-up-sheet.ts';
import {isSheetData, sheetData, sheetJson} from '../../../source/session/report/sheet-data.ts';
import {allInTune, benchWith, type Pinned} from '../../helpers/bench.ts';
import {opened, read} from '../../helpers/deeds.ts';

const six = [1, 2, 3, 4, 5, 6] as const;
const worked: readonly Deed[] = [
	...six.map(string => read(string, -10 * string)),
	opened,
	...six.flatMap((string): Deed[] => [{type: 'PegTurned', string, untilCents: 0}, read(string, 0)]),
	read(2, 0, 'harmonic'),
	read(2, 5, 'fretted'),
	{type: 'StringSlackened', string: 2},
	{type: 'SaddleMoved', string: 2, travelMm: 1.87},
	{type: 'PegTurned', string: 2, untilCents: 0},
	...six.map(string => read(string, 0.5)),
	{type: 'ArmMoved', motion: 'dive'},
	...six.map(string => read(string, 0.5)),
	{type: 'NoteWritten', text: 'Second fret <worn> & "flat".'},
];
const sheetOf = (pinned: Pinned = {}) => setUpSheet(benchWith({tuning: allInTune, deeds: worked, ...pinned}));
const name = '=SUM(1), "Old <black> & blue"';
const report = sheetOf({sheet: {name}});

const schema = JSON.parse(
	readFileSync(new URL('../../../source/session/report/sheet-data.schema.json', import.meta.url), 'utf8'),
) as object;
const validate = new Ajv2020({allErrors: true}).compile(schema);

describe('as JSON', () => {
	const data: unknown = JSON.parse(sheetJson(report));

	test('holds to its published schema and to the program’s own check', () => {
		expect(validate(data), JSON.stringify(validate.errors)).toBe(true);
		expect(isSheetData(data)).toBe(true);
		expect(data).toEqual(sheetData(report));
	});

	test('says what it is, and null where nothing is known', () => {
		expect(data).toMatchObject({
			format: 'evenfloat-sheet',
			version: 1,
			guitar: {name},
			strings: [
				{string: 1, openCents: {before: -10, now: 0.5}, intonationCents: {before: null, now: null}},
				{string: 2, saddleMovedMm: 1.87, intonationCents: {before: 5}},
				{},
				{},
				{},
				{},
			],
			proofs: [{motion: 'dive', verdict: expect.any(String), string: null}],
		});
	});

	// Every one of these must be noticed by both, or one of them checks nothing.
	const broken: readonly (readonly [why: string, from: string, to: string])[] = [
		['another format', '"evenfloat-sheet"', '"something"'],
		['a later version', '"version":1', '"version":2'],
		['a string without its note', '"note":"E4",', ''],
		['cents that are a word', '"before":-10,', '"before":"flat",'],
		['an unknown job', '"job":"whole"', '"job":"paint"'],
		['an unknown cause', '"verdict":"', '"verdict":"no-'],
		['no plate', '"plate":', '"dish":'],
		['a time that is missing', '"to":', '"until":'],
	];
	test.each(broken)('%s is refused by schema and check alike', (_, from, to) => {
		const text = JSON.stringify(data);
		expect(text).toContain(from);
		const copy: unknown = JSON.parse(text.replace(from, to));
		expect(validate(copy)).toBe(false);
		expect(isSheetData(copy)).toBe(false);
	});

	test('a field that was added later is let through', () => {
		const more = {...(data as object), colour: 'black'};
		expect(validate(more)).toBe(true);
		expect(isSheetData(more)).toBe(true);
	});
});

describe('as CSV', () => {
	const lines = sheetCsv(report).split('\r\n');

	test('a head, one row a string, a line end at the end', () => {
		expect(lines).toHaveLength(8);
		expect(lines.at(-1)).toBe('');
		expect(lines[0]).toMatch(/^guitar,finished,string,note,gauge_thou,/);
	});

	test('names are quoted, and never become a formula', () => {
		expect(lines[1]).toMatch(/^"'=SUM\(1\), ""Old <black> & blue""",/);
	});

	test('what is not known is an empty cell', () => {
		const head = lines[0]!.split(',');
		const cells = sheetCsv(sheetOf({sheet: {name: 'plain'}}))
			.split('\r\n')[1]!
			.split(',');
		expect(cells).toHaveLength(head.length);
		expect(cells[head.indexOf('intonation_before_cents')]).toBe('');
		expect(cells[head.indexOf('open_before_cents')]).toBe('-10');
	});
});

describe('as a page', () => {
	const page = sheetHtml(report);

	test('needs nothing from elsewhere and runs nothing', () => {
		expect(page).toMatch(/^<!doctype html>/);
		expect(page).not.toMatch(/<script|<link|<img|@import|url\(|href=|src=/);
		expect(page.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:/);
	});

	test('what a person typed does not become markup', () => {
		expect(page).toContain('=SUM(1), &quot;Old &lt;black&gt; &amp; blue&quot;');
		expect(page).toContain('Second fret &lt;worn&gt; &amp; &quot;flat&quot;.');
		expect(page).not.toContain('<worn>');
	});

	test('has the pictures that there is something for', () => {
		for (const title of ['Open strings', 'Fretted 12th against harmonic', 'Saddles', 'Pull of each string at pitch']) {
			expect(page).toContain(`<figcaption>${title}</figcaption>`);
		}
		const bare = sheetHtml(setUpSheet(benchWith({tuning: allInTune, deeds: []})));
		expect(bare).not.toContain('<figcaption>Saddles');
		expect(bare).not.toMatch(/NaN|undefined|Infinity/);
	});

	test('every number of a picture is a number, and every tag is closed', () => {
		expect(page).not.toMatch(/NaN|undefined|Infinity/);
		for (const tag of ['svg', 'text', 'table', 'section', 'figure', 'tr', 'td', 'ul', 'li', 'dl', 'div']) {
			expect(page.split(`<${tag}`).length, tag).toBeGreaterThan(1);
			expect([...page.matchAll(new RegExp(`<${tag}[ >]`, 'g'))].length, tag).toBe(page.split(`</${tag}>`).length - 1);
		}
	});

	test('units are those chosen', () => {
		const inches = sheetHtml(sheetOf({sheet: {units: {length: 'in', force: 'lbf'}}}));
		expect(inches).toMatch(/lbf/);
		expect(inches).not.toMatch(/\d mm|\d N\b/);
	});
});

test('scales have round steps that fill them', () => {
	expect(niceStep(100, 4)).toBe(50);
	expect(niceStep(7, 5)).toBe(2);
	expect(niceStep(0.2, 5)).toBeCloseTo(0.05, 9);
	expect(ticks(-30, 30, 10)).toEqual([-30, -20, -10, 0, 10, 20, 30]);
	expect(ticks(-3.1, 2, 2)).toEqual([-2, 0, 2]);
});
