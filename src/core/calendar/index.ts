export { calculators } from './calculators.ts';
export {
  type CalendarInput,
  calendarFor,
  calendarOf,
  type DatedTaskOf,
  type JobCalendar,
  workingMinutes,
} from './calendar.ts';
export { checkTimes } from './check-times.ts';
export { checks } from './checks.ts';
export {
  clockOf,
  dateOf,
  dayName,
  dayTold,
  dayWords,
  MINUTES_A_DAY,
  shortDay,
  shortTold,
  spanWords,
  weekdayOf,
  yearOf,
} from './day.ts';
export { calendarNotes, rangeWords } from './notes.ts';
export * from './solver/index.ts';
export { weekWords } from './week-words.ts';
export {
  buyBy,
  chanceWords,
  costWords,
  type DayItem,
  dayList,
  dayOf,
  dayRuns,
  decidingDays,
  type LostCost,
  lostCosts,
  lostWords,
  nextList,
  shortMoment,
} from './words.ts';
