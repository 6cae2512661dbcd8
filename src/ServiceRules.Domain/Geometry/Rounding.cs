using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Geometry;

/// <summary>
/// How quotients stay exact. Geometry divides in 28 digits, then rounds lengths to a whole 1e-12 mm (a
/// millionth of a nanometre) and pure numbers to 22 decimals, ties to even. Readings have far fewer digits, so a
/// value that is exact by algebra is exact here too, and a limit is never missed by a trailing digit.
/// </summary>
internal static class Rounding
{
    private const int LengthDecimals = 12;
    private const int FactorDecimals = 22;

    public static Length ToLength(decimal millimetres) =>
        Length.FromMillimetres(Math.Round(millimetres, LengthDecimals));

    public static decimal Factor(decimal factor) => Math.Round(factor, FactorDecimals);
}
