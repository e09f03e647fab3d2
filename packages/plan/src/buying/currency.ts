/** Currencies without a smaller unit, and those with a thousandth (ISO 4217 list one; memory). All others have a hundredth. */
const WHOLE = new Set('BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF'.split(' '));
const THOUSANDTH = new Set('BHD IQD JOD KWD LYD OMR TND'.split(' '));

/** Decimals of an amount of money. */
export function currencyDecimals(currency: string): number {
  if (WHOLE.has(currency)) return 0;
  return THOUSANDTH.has(currency) ? 3 : 2;
}

/** To the smallest unit, a half upwards; the sliver makes up for decimals that binary numbers fall short of. */
export function roundMoney(amount: number, currency: string): number {
  const steps = 10 ** currencyDecimals(currency);
  return Math.floor(amount * steps * (1 + 1e-12) + 0.5) / steps;
}

/** `18.50`: with every decimal of the currency. */
export const moneyText = (amount: number, currency: string): string => amount.toFixed(currencyDecimals(currency));
