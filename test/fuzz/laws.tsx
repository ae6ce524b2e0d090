import assert from 'node:assert/strict';
import {stripVTControlCharacters} from 'node:util';
import {renderToString} from 'ink';
import stringWidth from 'string-width';
import {entryCount} from '../../source/session/journal.ts';
import type {Bench} from '../../source/session/bench.ts';
import type {Ports} from '../../source/shell/ports.ts';
import {Sized} from '../../source/shell/screen.tsx';
import {seenBy} from '../../source/shell/seen.ts';
import type {Sitting, Wizard} from '../../source/shell/state.ts';
import {press} from '../../source/shell/wizard.ts';
import {asciiGlyphs, unicodeGlyphs} from '../../source/terminal/glyphs.ts';
import {LookContext} from '../../source/terminal/look.tsx';
import {type ColourDepth, themeFor} from '../../source/terminal/theme.ts';
import {toAscii} from '../../source/units/ascii.ts';

export interface Window {
	readonly columns: number;
	readonly rows: number;
	readonly depth: ColourDepth;
	readonly isAscii: boolean;
}

/** The frame, drawn by the real renderer, stays inside its window and says nothing that only a program would. */
export function drawsWithin(wizard: Wizard, ports: Ports, {columns, rows, depth, isAscii}: Window): void {
	const glyphs = isAscii ? asciiGlyphs : unicodeGlyphs;
	const drawn = renderToString(
		<LookContext value={{theme: themeFor(depth), glyphs}}>
			<Sized wizard={wizard} ports={ports} columns={columns} rows={rows} />
		</LookContext>,
		{columns},
	);
	const text = isAscii ? toAscii(drawn) : drawn;
	const lines = stripVTControlCharacters(text).split('\n');
	const where = `at ${columns} x ${rows}, ${depth}${isAscii ? ', ASCII' : ''}:\n${lines.join('\n')}`;
	assert.ok(lines.length <= Math.max(1, rows - 1), `${lines.length} rows ${where}`);
	for (const line of lines) assert.ok(stringWidth(line) <= columns, `“${line}” is too wide ${where}`);
	// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not get to a terminal
	assert.doesNotMatch(lines.join(''), /[\u0000-\u001F\u007F-\u009F]/, where);
	if (isAscii) assert.match(lines.join(''), /^[ -~]*$/, where);
	assert.doesNotMatch(lines.join('\n'), /undefined|\[object|function ?\(/, where);
	// What was typed may say so; what is worked out may not.
	const odd = /NaN|Infinity/.exec(lines.join('\n'))?.[0];
	if (odd !== undefined) assert.ok(JSON.stringify(wizard).includes(odd), `${odd} ${where}`);
}

/** From anywhere there is a way out: Ctrl-C at once, `q` after closing what is open. */
export function isLeft(wizard: Wizard, ports: Ports): void {
	assert.equal(press(wizard, 'ctrl+c', ports).screen, 'left', 'Ctrl-C leaves');
	const closed = ['escape', 'escape', 'escape'].reduce((now, key) => press(now, key, ports), wizard);
	if (closed.screen === 'sitting') {
		assert.equal(closed.entry.text, '', 'Escape clears the line');
		assert.equal(closed.overlay, undefined, 'Escape closes what is open');
		if (seenBy(closed, ports).task.freeText) return;
	}

	assert.equal(press(closed, 'q', ports).screen, 'left', 'q leaves');
}

/** What another program would read from the store is what this one holds. */
export function isKept({id, journal, isStored}: Sitting, load: Ports['store']['load']): void {
	if (!isStored) return;
	const loaded = load(id);
	assert.ok(loaded.ok, loaded.ok ? '' : loaded.said);
	assert.deepEqual(loaded.journal, JSON.parse(JSON.stringify(journal)));
}

/** Nothing that the live wizard shows comes from anywhere but the facts. */
export function replays({journal, learned}: Sitting, ports: Ports): void {
	const live = seenBy({journal, ...(learned && {learned})}, ports);
	const story = structuredClone(journal.story);
	const again = seenBy({journal: {story, undone: []}, ...(learned && {learned})}, ports);
	assert.deepEqual(again.task, live.task);
	assert.equal(again.stage, live.stage);
	assert.deepEqual(shown(again.bench), shown(live.bench));
}

function shown(bench: Bench): unknown {
	const {story: _, ...rest} = bench;
	return JSON.parse(JSON.stringify({...rest, locking: bench.locking(), diagnosis: bench.diagnosis()}));
}

/** Taken back one by one, everything is gone but the sheet it began with; put back, everything is there again. */
export function isUndone(sitting: Sitting, ports: Ports): void {
	const {story} = sitting.journal;
	const count = entryCount(story);
	const first = story.filter(({entry}) => entry === story[0]!.entry);
	const clear = ['escape', 'escape', 'escape'].reduce((now: Wizard, key) => press(now, key, ports), sitting);
	const back = times(count + 1, clear, 'ctrl+u', ports);
	assert.ok(back.screen === 'sitting');
	assert.deepEqual(back.journal.story, first);
	const there = times(count - 1, back, 'ctrl+r', ports);
	assert.ok(there.screen === 'sitting');
	assert.deepEqual(there.journal.story, story);
	assert.deepEqual(seenBy(there, ports).task, seenBy(sitting, ports).task);
}

function times(count: number, wizard: Wizard, key: string, ports: Ports): Wizard {
	let now = wizard;
	for (let each = 0; each < count; each++) now = press(now, key, ports);
	return now;
}
