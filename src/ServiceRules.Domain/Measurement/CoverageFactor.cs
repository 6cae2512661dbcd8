using ServiceRules.Domain.Statistics;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// The coverage factor k: the two-sided Student t quantile at a level of confidence (JCGM 100:2008, G.3 and G.6).
/// <para>
/// Verdicts use 95.45 %, exactly 2Φ(2) - 1, so that k is 2 for infinite degrees of freedom. That level stands as a table
/// of decimals (1 to 100 degrees of freedom, 12 decimals; Table G.2 prints two): a guard must have the same digits on
/// every machine, which a quantile computed in floating point does not promise. Between 100 and infinity the factor for
/// 100 is used, at most 1.3 % too wide and never too narrow; U interpolates (<see cref="Between"/>). Other levels are computed.
/// </para>
/// </summary>
public static class CoverageFactor
{
    /// <summary>k for infinite degrees of freedom.</summary>
    public const decimal Infinite = 2m;

    private const int ComputedDecimals = 10;

    // From here on degrees of freedom count as infinite.
    private const decimal Many = 1_000_000m;

    // prettier-ignore
    private static readonly decimal[] Table =
    [
        13.967730199245m,
        4.526536687430m,
        3.306822175006m,
        2.869309414629m,
        2.648649430703m,
        2.516524055653m,
        2.428805130404m,
        2.366415784042m,
        2.319805898259m,
        2.283678202478m,
        2.254862696780m,
        2.231348094024m,
        2.211797543353m,
        2.195288190932m,
        2.181162635075m,
        2.168939991186m,
        2.158260432909m,
        2.148849388233m,
        2.140493723053m,
        2.133025480454m,
        2.126310521380m,
        2.120240426521m,
        2.114726617558m,
        2.109696019518m,
        2.105087812860m,
        2.100850968865m,
        2.096942356548m,
        2.093325272284m,
        2.089968286017m,
        2.086844327310m,
        2.083929955042m,
        2.081204769098m,
        2.078650932879m,
        2.076252783007m,
        2.073996508216m,
        2.071869883529m,
        2.069862048931m,
        2.067963324078m,
        2.066165052395m,
        2.064459469247m,
        2.062839589971m,
        2.061299114356m,
        2.059832344825m,
        2.058434116073m,
        2.057099734342m,
        2.055824924818m,
        2.054605785918m,
        2.053438749433m,
        2.052320545671m,
        2.051248172882m,
        2.050218870368m,
        2.049230094766m,
        2.048279499072m,
        2.047364914059m,
        2.046484331754m,
        2.045635890730m,
        2.044817862980m,
        2.044028642173m,
        2.043266733132m,
        2.042530742382m,
        2.041819369651m,
        2.041131400202m,
        2.040465697921m,
        2.039821199050m,
        2.039196906523m,
        2.038591884818m,
        2.038005255283m,
        2.037436191877m,
        2.036883917292m,
        2.036347699413m,
        2.035826848078m,
        2.035320712119m,
        2.034828676642m,
        2.034350160542m,
        2.033884614208m,
        2.033431517421m,
        2.032990377415m,
        2.032560727089m,
        2.032142123359m,
        2.031734145631m,
        2.031336394398m,
        2.030948489928m,
        2.030570071058m,
        2.030200794077m,
        2.029840331678m,
        2.029488371993m,
        2.029144617697m,
        2.028808785165m,
        2.028480603694m,
        2.028159814778m,
        2.027846171423m,
        2.027539437519m,
        2.027239387244m,
        2.026945804509m,
        2.026658482442m,
        2.026377222900m,
        2.026101836013m,
        2.025832139758m,
        2.025567959558m,
        2.025309127903m,
    ];

    /// <summary>
    /// k at a level: the table at 95.45 %, else the quantile from the numerical library, rounded to ten decimals.
    /// </summary>
    public static decimal At(CoverageLevel level, DegreesOfFreedom degreesOfFreedom) =>
        level == CoverageLevel.TwoSigma
            ? For(degreesOfFreedom)
            : Math.Round(
                (decimal)new StandardDistribution(degreesOfFreedom.Whole).UpperQuantile(level.Tail),
                ComputedDecimals
            );

    /// <summary>k at 95.45 % for these degrees of freedom, truncated to the next lower whole number.</summary>
    public static decimal For(DegreesOfFreedom degreesOfFreedom) =>
        degreesOfFreedom.Truncated is not { } whole
            ? Infinite
            : Table[Math.Clamp(whole, 1, Table.Length) - 1];

    /// <summary>
    /// k at 95.45 % between whole degrees of freedom (JCGM 100:2008, G.4.1 leaves interpolation open): along 1/ν from one
    /// table value to the next, and from 100 degrees to a million, where k is 2. A chord of a curve that bends upwards, so not
    /// below the quantile (beyond 100 degrees by at most 3e-6). Truncated, k would fall in steps.
    /// </summary>
    public static decimal Between(DegreesOfFreedom degreesOfFreedom)
    {
        if (degreesOfFreedom.Number is not { } finite)
        {
            return Infinite;
        }

        var number = (decimal)finite;
        if (number >= Table.Length)
        {
            return Infinite + ((Table[^1] - Infinite) * ((Many / number) - 1) / ((Many / Table.Length) - 1));
        }

        var whole = (int)number;
        return Table[whole - 1]
            - ((Table[whole - 1] - Table[whole]) * (whole + 1) * (number - whole) / number);
    }
}
