import {mkdtempSync, rmSync} from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import {type Rng, rngFrom} from '../../source/numeric/rng.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import type {Journal} from '../../source/session/journal.ts';
import {openOpening} from '../../source/shell/opening.ts';
import {obeyLine} from '../../source/shell/plain.ts';
import type {Ports} from '../../source/shell/ports.ts';
import {realPorts} from '../../source/shell/real-ports.ts';
import {seenBy} from '../../source/shell/seen.ts';
import type {Opening, Sitting, Wizard} from '../../source/shell/state.ts';
import {openSetup, paste, press} from '../../source/shell/wizard.ts';
import {openStore, type Store} from '../../source/storage/store.ts';
import {memoryStore} from '../helpers/memory-store.ts';
import {chance, pick, whole} from './chance.ts';
import {type Doing, nextDoing} from './fingers.ts';
import {atRelock} from './kept.ts';
import {drawsWithin, isKept, isLeft, isUndone, replays, type Window} from './laws.tsx';

/** What a run did, so that one can see how far it came. */
export interface Tally {
	keys: number;
	pastes: number;
	guitars: number;
	facts: number;
	refused: number;
	frames: number;
	finished: number;
	/** Keys pressed at each stage. */
	readonly stages: Record<string, number>;
	/** Kinds of fact stored at the end, with their numbers. */
	readonly kinds: Record<string, number>;
}

/**
 * Random keys and pastes through the real stages and the real wizard, the
 * laws looked at on the way.
 *
 * @throws {Error} When something breaks: says the seed, and the last things done before it.
 */
export function fuzz({seed, keys}: {readonly seed: number; readonly keys: number}): Tally {
	const tally: Tally = {
		keys: 0,
		pastes: 0,
		guitars: 0,
		facts: 0,
		refused: 0,
		frames: 0,
		finished: 0,
		stages: {},
		kinds: {},
	};
	for (let guitar = 0; tally.keys + tally.pastes < keys; guitar++) {
		tally.guitars += 1;
		const last: string[] = [];
		const rng = rngFrom(seed, guitar);
		const start = guitar % 3 === 1 ? atRelock() : undefined;
		const most = Math.min(whole(rng, 150, start ? 400 : 1200), keys - tally.keys - tally.pastes);
		try {
			atOneBench(rng, {most, diligence: start ? 0.95 : diligences[guitar % diligences.length]!, start}, tally, last);
		} catch (error) {
			const said = error instanceof Error ? (error.stack ?? error.message) : String(error);
			throw new Error(`seed ${seed}, guitar ${guitar}, after:\n${last.slice(-25).join('\n')}\n\n${said}`);
		}
	}

	return tally;
}

/** Some have to come far, or the last steps would never be looked at. */
const diligences = [0.985, 0.6, 0.93, 0.4] as const;

interface Plan {
	/** Keys and pastes. */
	readonly most: number;
	readonly diligence: number;
	/** A set-up that is opened first, and whenever the program was left. */
	readonly start: Journal | undefined;
}

/** A store of its own, some set-ups in it, and a program that is started again whenever it was left. */
function atOneBench(rng: Rng, {most, diligence, start}: Plan, tally: Tally, last: string[]): void {
	const folder = chance(rng, 0.5) ? mkdtempSync(path.join(os.tmpdir(), 'evenfloat-fuzz-')) : undefined;
	// A clock that is set back now and then.
	let time = 1_770_000_000_000;
	const now = () => {
		time += chance(rng, 0.01) ? -3_600_000 : whole(rng, 1, 40_000);
		return time;
	};
	const memory = folder === undefined ? memoryStore(now) : undefined;
	const store = (): Store => memory ?? storeIn(folder!, now);
	const strings = pick(rng, [6, 7, 8] as const);
	let ports = portsOf(store(), now, strings, rng);
	const id = start && keptIn(store(), start);
	const begun = (): Opening | Sitting => {
		const opened = id === undefined ? openOpening(ports) : openSetup(openOpening(ports), id, 'take-over', ports);
		if (opened.screen === 'left') throw new Error(`a set-up kept is left as it is opened: ${opened.said.join(' ')}`);
		return opened;
	};
	let wizard: Wizard = begun();
	const isByLine = chance(rng, 0.15);
	try {
		for (let done = 0; done < most; ) {
			if (wizard.screen === 'left' || chance(rng, 0.002)) {
				// Left, or ended without a word: then its claim stays behind.
				ports = portsOf(store(), now, strings, rng);
				wizard = begun();
			}

			if (memory && chance(rng, 0.01)) memory.refuse(chance(rng, 0.5) ? 'There is no room left.' : undefined);
			const doing = nextDoing(rng, wizard, ports, diligence);
			const before: Wizard = wizard;
			last.push(`${whereIs(wizard, ports)} ${JSON.stringify(doing)}`);
			const stage = whereIs(wizard, ports);
			const count = 'keys' in doing ? doing.keys.length : 1;
			wizard = did(wizard, doing, ports, isByLine, rng);
			done += count;
			tally['keys' in doing ? 'keys' : 'pastes'] += count;
			tally.stages[stage] = (tally.stages[stage] ?? 0) + count;
			lookAt(before, wizard, {rng, ports, tally, store: folder === undefined ? memory! : storeIn(folder, now)});
		}

		memory?.refuse(undefined);
		atTheEnd(store(), now, strings, rng, tally);
	} finally {
		if (folder !== undefined) rmSync(folder, {recursive: true, force: true});
	}
}

function keptIn(store: Store, journal: Journal): string {
	const {id} = store.create({name: 'Kept one'});
	const saved = store.save(id, journal);
	if (!saved.ok) throw new Error(saved.said);
	return id;
}

function portsOf(store: Store, now: () => number, strings: 6 | 7 | 8, rng: Rng): Ports {
	return {
		...realPorts(store, now),
		seed: () => whole(rng, 0, 999_999),
		firstSheet: practiceSeed => ({...defaultSheet({strings}), ...(practiceSeed !== undefined && {practiceSeed})}),
		writeFile: (name, text) => ({ok: text.length > 0, said: `Written: ${name}`}),
	};
}

function storeIn(folder: string, now: () => number): Store {
	const opened = openStore({folder, now});
	if (!opened.ok) throw new Error(opened.said);
	return opened.store;
}

function did(wizard: Wizard, doing: Doing, ports: Ports, isByLine: boolean, rng: Rng): Wizard {
	if (isByLine) {
		const text = 'keys' in doing ? doing.keys.filter(key => [...key].length === 1).join('') : doing.paste;
		// Whoever works line by line puts a colon before a key where words are asked for, and gives numbers of lines.
		if (wizard.screen === 'opening') return obeyLine(wizard, atOpeningByLine(rng, text), ports, () => {});
		return text.split(/[\r\n]+/).reduce<Wizard>((now, line) => obeyLine(now, line, ports, () => {}), wizard);
	}

	if ('paste' in doing) return paste(wizard, doing.paste, ports);
	return doing.keys.reduce((now, key) => press(now, key, ports), wizard);
}

function atOpeningByLine(rng: Rng, text: string): string {
	const line = whole(rng, -1, 12);
	return pick(rng, [text, String(line), `n ${line}`, `x${line}`, `s ${line}`, 'yes', 'no', '', '?', 'Blue one']);
}

function whereIs(wizard: Wizard, ports: Ports): string {
	return wizard.screen === 'sitting' ? (seenBy(wizard, ports).stage?.id ?? 'end') : wizard.screen;
}

function lookAt(
	before: Wizard,
	wizard: Wizard,
	{rng, ports, tally, store}: {readonly rng: Rng; readonly ports: Ports; readonly tally: Tally; readonly store: Store},
): void {
	if (chance(rng, 0.15)) {
		drawsWithin(wizard, ports, someWindow(rng));
		tally.frames += 1;
	}

	if (wizard.screen !== 'sitting') return;
	if (wizard.message?.as === 'attention') tally.refused += 1;
	const isNew = before.screen !== 'sitting' || before.journal !== wizard.journal;
	if (isNew && !wizard.isLookOnly) isKept(wizard, id => store.load(id));
	if (isNew && chance(rng, 0.02)) replays(wizard, ports);
	if (chance(rng, 0.02)) isLeft(wizard, ports);
}

function someWindow(rng: Rng): Window {
	const usual = [
		[80, 24],
		[60, 18],
		[120, 40],
		[112, 30],
	] as const;
	const [columns, rows] = chance(rng, 0.4) ? pick(rng, usual) : [whole(rng, 20, 200), whole(rng, 5, 60)];
	return {columns, rows, depth: pick(rng, ['none', '16', '256', 'true'] as const), isAscii: chance(rng, 0.3)};
}

/** Every set-up that came about, opened again by a program that knows nothing of it. */
function atTheEnd(store: Store, now: () => number, strings: 6 | 7 | 8, rng: Rng, tally: Tally): void {
	const ports = portsOf(store, now, strings, rng);
	for (const {id, finished} of store.list()) {
		const opened = openSetup(openOpening(ports), id, 'take-over', ports);
		if (opened.screen !== 'sitting') throw new Error(`${id} cannot be opened: ${JSON.stringify(opened)}`);
		tally.facts += opened.journal.story.length;
		if (finished) tally.finished += 1;
		for (const {type} of opened.journal.story) tally.kinds[type] = (tally.kinds[type] ?? 0) + 1;
		replays(opened, ports);
		isUndone(opened, ports);
	}
}
