export { type Bar, type BarPlot, barChart } from './bar-chart.ts';
export type { Look } from './look.ts';
export type { PlotOptions } from './options.ts';
export { type PolarCut, type PolarPlot, polarChart } from './polar-chart.ts';
export { type FrequencyPlot, impedanceChart, reflectionChart, vswrChart } from './reflection-charts.ts';
export { type ReflectionCurve, reflectionCurve } from './reflection-curve.ts';
export { type SmithPlot, smithChart } from './smith-chart.ts';
export type { Ticks } from './ticks.ts';
export { type AxisSpan, type PlotCurve, type Shade, type XyChart, xyChart } from './xy-chart.ts';
