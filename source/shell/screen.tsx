import {useIsScreenReaderEnabled, useWindowSize} from 'ink';
import {wrapTo, wrapWords} from '../terminal/fit.ts';
import {line} from '../terminal/line.ts';
import {Lines, LookContext, type Look} from '../terminal/look.tsx';
import {OpeningScreen} from './opening-screen.tsx';
import type {Ports} from './ports.ts';
import {regionsFor, smallest} from './regions.ts';
import {seenBy} from './seen.ts';
import {SittingScreen} from './sitting-screen.tsx';
import {SpokenScreen} from './spoken-screen.tsx';
import type {Wizard} from './state.ts';

/** Whatever the wizard shows, at the size that the terminal has now. */
export function Screen({wizard, ports, look}: {readonly wizard: Wizard; readonly ports: Ports; readonly look: Look}) {
	const size = useWindowSize();
	// Ink's own switch: INK_SCREEN_READER=true in the environment.
	const isSpoken = useIsScreenReaderEnabled();
	if (isSpoken && wizard.screen !== 'left') {
		return <SpokenScreen wizard={wizard} ports={ports} columns={size.columns} rows={size.rows} />;
	}

	return (
		<LookContext value={look}>
			<Sized wizard={wizard} ports={ports} columns={size.columns} rows={size.rows} />
		</LookContext>
	);
}

/** The same at a given size. */
export function Sized({
	wizard,
	ports,
	columns,
	rows,
}: {
	readonly wizard: Wizard;
	readonly ports: Ports;
	readonly columns: number;
	readonly rows: number;
}) {
	if (wizard.screen === 'left') return null;
	if (isTooSmall(columns, rows)) {
		return <Lines lines={tooSmall(columns, rows).map(text => line(text))} width={columns} />;
	}

	if (wizard.screen === 'opening')
		return <OpeningScreen opening={wizard} ports={ports} columns={columns} rows={rows} />;
	const strings = seenBy(wizard, ports).bench.strings.length;
	return (
		<SittingScreen
			sitting={wizard}
			ports={ports}
			regions={regionsFor({columns, rows}, strings, wizard.ear !== undefined)!}
		/>
	);
}

export function isTooSmall(columns: number, rows: number): boolean {
	return columns < smallest.columns || rows < smallest.rows;
}

/** What a window says that is too small for the screen: the longest of these that it has room for. */
export function tooSmall(columns: number, rows: number): readonly string[] {
	const needs = `${smallest.columns} x ${smallest.rows}`;
	const here = `This window is ${columns} x ${rows}`;
	const said = [
		`${here}; evenfloat needs ${needs}. Make it larger, or press q to leave. Nothing is lost.`,
		`${here}, too small: ${needs}. q leaves.`,
		`Too small; q leaves`,
	];
	const room = Math.max(1, rows - 1);
	const fits = said.find(text => wrapWords(text, columns).length <= room);
	return wrapTo(fits ?? said.at(-1)!, columns, room, '');
}
