import type {SetUpSheet} from './set-up-sheet.ts';
import {type SheetData, sheetData, type StringData} from './sheet-data.ts';

/** Columns of the table: name, unit in the name, and where it comes from. */
const columns: readonly (readonly [name: string, cell: (row: StringData, sheet: SheetData) => Cell])[] = [
	['guitar', (_, {guitar}) => guitar.name],
	['finished', (_, {to}) => to],
	['string', row => row.string],
	['note', row => row.note],
	['gauge_thou', row => row.gaugeThou],
	['wound', row => row.wound],
	['new', row => row.new],
	['open_before_cents', row => row.openCents.before],
	['open_now_cents', row => row.openCents.now],
	['open_now_read', row => row.read],
	['intonation_before_cents', row => row.intonationCents.before],
	['intonation_now_cents', row => row.intonationCents.now],
	['saddle_before_mm', row => row.saddleMm.before],
	['saddle_now_mm', row => row.saddleMm.now],
	['saddle_moved_mm', row => row.saddleMovedMm],
	['tension_before_n', row => row.tensionN.before],
	['tension_now_n', row => row.tensionN.now],
	['open_now_heard_sd_cents', row => row.heardSdCents],
	['stiffness', row => row.stiffness],
];

type Cell = string | number | boolean | null;

/**
 * One row a string, for a spreadsheet: comma, decimal point, lines end in
 * CR LF, cells quoted where they must be (RFC 4180). Fixed units, as in
 * `sheet-data.ts`; an empty cell is not known.
 */
export function sheetCsv(report: SetUpSheet): string {
	const sheet = sheetData(report);
	const rows = sheet.strings.map(row => columns.map(([, cell]) => cell(row, sheet)));
	return [columns.map(([name]) => name), ...rows].map(row => `${row.map(quoted).join(',')}\r\n`).join('');
}

function quoted(cell: Cell): string {
	if (cell === null) return '';
	// A typed name that begins like a formula must not become one in a spreadsheet.
	const text = typeof cell === 'string' && /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : String(cell);
	return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
