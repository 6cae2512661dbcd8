using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// What an expanded uncertainty is made of, as told beside it, so that anybody can reckon it again: u² = Σuᵢ²,
/// ν = u⁴/Σ(uᵢ⁴/νᵢ), U = k(ν)·u (JCGM 100:2008, 5.1.2, G.4.1, 6.2.1). Where a part of the errors by itself comes to more
/// (<see cref="IndependentErrors"/>), U rests on that part, and the lines say which are left out of it.
/// </summary>
public sealed record StatedBudget
{
    // More selections than these nobody reckons again; the verdict's own bound is the same.
    private const int MostLittleKnown = 10;

    private const int FactorDecimals = 12;

    /// <summary>The contributions, those that come to nothing left out.</summary>
    public required ImmutableArray<StatedContribution> Contributions { get; init; }

    /// <summary>u, all of them in quadrature.</summary>
    public required StandardUncertainty Combined { get; init; }

    /// <summary>ν of u, plain Welch-Satterthwaite.</summary>
    public required DegreesOfFreedom DegreesOfFreedom { get; init; }

    /// <summary>k for ν at 95.45 %.</summary>
    public required decimal CoverageFactor { get; init; }

    /// <summary>U, at least k·u.</summary>
    public required Length Expanded { get; init; }

    /// <summary>The part that U rests on, where that by itself comes to more than the whole; none where the whole does.</summary>
    public StatedPart? RestsOn { get; init; }

    /// <summary>The errors that it tells, each by itself, to ask of other limits what they could prove.</summary>
    public IndependentErrors Errors =>
        IndependentErrors.Of(
            Contributions.Select(line =>
                (
                    (double)line.Uncertainty.Value.Millimetres,
                    line.DegreesOfFreedom,
                    line.Source is UncertaintySource.Calibration
                )
            )
        );

    /// <summary>The level of every U that is told.</summary>
    public static CoverageLevel Level => CoverageLevel.TwoSigma;

    /// <summary>What a measured value's uncertainty is made of.</summary>
    public static StatedBudget Of(MeasuredValue measured)
    {
        var expanded = measured.Expanded;
        var lines = measured.Errors.Lines;
        var plain = Measurement.CoverageFactor.Between(measured.DegreesOfFreedom);
        var (part, counted) =
            expanded.CoverageFactor == plain ? (null, lines.ToHashSet()) : PartOf(measured, lines);
        return new()
        {
            Contributions =
            [
                .. lines.Select(line => new StatedContribution(
                    line.Source,
                    StandardUncertainty.FromComputed(line.Size),
                    Told(line.Known),
                    counted.Contains(line)
                )),
            ],
            Combined = measured.Uncertainty,
            DegreesOfFreedom = Told(measured.DegreesOfFreedom),
            CoverageFactor = Told(plain),
            Expanded = expanded.Value,
            RestsOn = part,
        };
    }

    /// <summary>Whether both tell the same, line by line.</summary>
    public bool Equals(StatedBudget? other) =>
        other is not null
        && Combined == other.Combined
        && DegreesOfFreedom == other.DegreesOfFreedom
        && CoverageFactor == other.CoverageFactor
        && Expanded == other.Expanded
        && RestsOn == other.RestsOn
        && Contributions.SequenceEqual(other.Contributions);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Combined, DegreesOfFreedom, Expanded);

    /// <summary>Degrees of freedom to the decimals that documents state, so that what is read back is the same.</summary>
    private static DegreesOfFreedom Told(DegreesOfFreedom known) =>
        known.Stated is { } number ? DegreesOfFreedom.Of((double)number) : known;

    /// <summary>k to as many decimals as its table has.</summary>
    private static decimal Told(decimal factor) => Math.Round(factor, FactorDecimals);

    /// <summary>
    /// The selection of little known errors that comes to the most. What is known is in none: k·u falls along it at first, if at all,
    /// and then rises (<see cref="IndependentErrors"/>), so where adding it brings more, adding all others brings more still, and U
    /// rests on the whole.
    /// </summary>
    private static (StatedPart?, HashSet<ErrorLine>) PartOf(
        MeasuredValue measured,
        ImmutableArray<ErrorLine> lines
    )
    {
        ImmutableArray<ErrorLine> little = [.. lines.Where(line => !line.Known.IsInfinite)];
        if (little.Length > MostLittleKnown)
        {
            var least = little.Select(line => line.Known).Aggregate(DegreesOfFreedom.Least);
            return (
                new(measured.Uncertainty, least, Told(Measurement.CoverageFactor.Between(least))),
                [.. lines]
            );
        }

        var best = Enumerable
            .Range(0, 1 << little.Length)
            .Select(selection => little.Where((_, i) => (selection & (1 << i)) != 0).ToImmutableArray())
            .Select(each =>
                (
                    Lines: each,
                    Errors: IndependentErrors.Of(each.Select(line => (line.Size, line.Known, false)))
                )
            )
            .MaxBy(each =>
                (double)Measurement.CoverageFactor.Between(each.Errors.DegreesOfFreedom)
                * each.Errors.Millimetres
            );
        return (
            new(
                best.Errors.Uncertainty,
                Told(best.Errors.DegreesOfFreedom),
                Told(Measurement.CoverageFactor.Between(best.Errors.DegreesOfFreedom))
            ),
            [.. best.Lines]
        );
    }
}
