using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// A level of confidence for which a coverage factor is stated (JCGM 100:2008, 6.2.2 and Table G.2). A closed family of six;
/// 68.27, 95.45 and 99.73 % mean exactly what one, two and three standard deviations of a normal distribution hold.
/// </summary>
public sealed record CoverageLevel
{
    private CoverageLevel(string name, double tail)
    {
        Name = name;
        Tail = tail;
    }

    /// <summary>68.27 %: one standard deviation of a normal distribution.</summary>
    public static CoverageLevel SixtyEight { get; } = new("68.27 %", TailBeyond(1));

    /// <summary>90 %.</summary>
    public static CoverageLevel Ninety { get; } = new("90 %", 0.05);

    /// <summary>95 %.</summary>
    public static CoverageLevel NinetyFive { get; } = new("95 %", 0.025);

    /// <summary>95.45 %, two standard deviations: the level of every verdict.</summary>
    public static CoverageLevel TwoSigma { get; } = new("95.45 %", TailBeyond(2));

    /// <summary>99 %.</summary>
    public static CoverageLevel NinetyNine { get; } = new("99 %", 0.005);

    /// <summary>99.73 %: three standard deviations of a normal distribution.</summary>
    public static CoverageLevel ThreeSigma { get; } = new("99.73 %", TailBeyond(3));

    /// <summary>All levels, from the least.</summary>
    public static IReadOnlyList<CoverageLevel> All { get; } =
    [SixtyEight, Ninety, NinetyFive, TwoSigma, NinetyNine, ThreeSigma];

    /// <summary>The level that a certificate prints: <c>95 %</c>.</summary>
    public static Parsed<CoverageLevel> Parse(string text) =>
        All.FirstOrDefault(level => level.Name == text) is { } known
            ? Parsed<CoverageLevel>.Of(known)
            : Parsed<CoverageLevel>.Refused(
                ParseFailure.Because("is no level that factors are known for", text, AcceptedForms)
            );

    /// <summary>The forms that are read, in words for a message.</summary>
    public static string AcceptedForms =>
        $"one of {string.Join(", ", All.Select(level => $"`{level.Name}`"))}";

    /// <summary>As certificates print it: <c>95.45 %</c>.</summary>
    public string Name { get; }

    /// <summary>The chance beyond either end.</summary>
    internal double Tail { get; }

    /// <inheritdoc/>
    public override string ToString() => Name;

    private static double TailBeyond(double deviations) =>
        new StandardDistribution(DegreesOfFreedom.Infinite).UpperTail(deviations);
}
