// Everything that is drawn on the sheet, in one part: the page loads it when its entries and numbers are there.

export { budgetBars } from "./budgetBars.ts";
export { budgetTable } from "./budgetTable.ts";
export { comparisonTable } from "./comparisonTable.ts";
export { correlationBars } from "./correlationBars.ts";
export { correlationTable } from "./correlationTable.ts";
export { dimensionChain } from "./dimensionChain.ts";
export { dimensionChainTable } from "./dimensionChainTable.ts";
export { distribution } from "./distribution.ts";
export { distributionTable } from "./distributionTable.ts";
export { fixturePlan } from "./fixturePlan.ts";
export { fixturePlanTable } from "./fixturePlanTable.ts";
export { locatorSensitivity, sensitivityPieces } from "./locatorSensitivity.ts";
export { partMap } from "./partMap.ts";
export { partMapTable } from "./partMapTable.ts";
export { runChart, runChartTable } from "./runChart.ts";
export { setupSketch } from "./setupSketch.ts";
export { setupSketchTable } from "./setupSketchTable.ts";
export { stackTable } from "./stackTable.ts";
export { comparisonPieces, strategyComparison } from "./strategyComparison.ts";
export { toleranceStack } from "./toleranceStack.ts";
export { traceOf } from "./trace/traceOf.ts";
export { trace } from "./trace.ts";
export { traceTable } from "./traceTable.ts";
export { warmUpChart, warmUpChartTable } from "./warmUpChart.ts";
