export {
  type CutOrder,
  type CutPiece,
  type CutShop,
  type CutStep,
  type CutTool,
  type CutWarning,
  offcuts,
  orderOfCuts,
  type SheetToCut,
} from './order.ts';
