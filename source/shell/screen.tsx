import {Text, useWindowSize} from 'ink';
import {LookContext, type Look} from '../terminal/look.tsx';
import {OpeningScreen} from './opening-screen.tsx';
import type {Ports} from './ports.ts';
import {regionsFor, smallest} from './regions.ts';
import {seenBy} from './seen.ts';
import {SittingScreen} from './sitting-screen.tsx';
import type {Wizard} from './state.ts';

/** Whatever the wizard shows, at the size that the terminal has now. */
export function Screen({wizard, ports, look}: {readonly wizard: Wizard; readonly ports: Ports; readonly look: Look}) {
	const size = useWindowSize();
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
	if (isTooSmall(columns, rows)) return <Text wrap="wrap">{tooSmall(columns, rows)}</Text>;
	if (wizard.screen === 'opening')
		return <OpeningScreen opening={wizard} ports={ports} columns={columns} rows={rows} />;
	const strings = seenBy(wizard, ports).bench.strings.length;
	return <SittingScreen sitting={wizard} ports={ports} regions={regionsFor({columns, rows}, strings)!} />;
}

export function isTooSmall(columns: number, rows: number): boolean {
	return columns < smallest.columns || rows < smallest.rows;
}

export function tooSmall(columns: number, rows: number): string {
	return `This window is ${columns} x ${rows}; evenfloat needs ${smallest.columns} x ${smallest.rows}. Make it larger, or press q to leave. Nothing is lost.`;
}
