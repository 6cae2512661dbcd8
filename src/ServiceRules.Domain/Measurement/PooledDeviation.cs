using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// Standard deviations from several studies of one gauge, pooled: s = √(Σνᵢsᵢ²/Σνᵢ) on Σνᵢ degrees of freedom
/// (NIST/SEMATECH e-Handbook, 2.4.4.1).
/// </summary>
public sealed record PooledDeviation
{
    private const int Decimals = 12;

    private PooledDeviation(Length standardDeviation, DegreesOfFreedom degreesOfFreedom)
    {
        StandardDeviation = standardDeviation;
        DegreesOfFreedom = degreesOfFreedom;
    }

    /// <summary>s of a single reading.</summary>
    public Length StandardDeviation { get; }

    /// <summary>Σνᵢ.</summary>
    public DegreesOfFreedom DegreesOfFreedom { get; }

    /// <summary>Pools studies.</summary>
    /// <param name="studies">
    /// At least one: each deviation zero or more, with its degrees of freedom, one fewer than the readings of one piece.
    /// </param>
    /// <exception cref="ArgumentException">No study, or one without degrees of freedom.</exception>
    public static PooledDeviation Of(params ImmutableArray<(Length Deviation, int DegreesOfFreedom)> studies)
    {
        if (studies.IsEmpty || studies.Any(study => study.DegreesOfFreedom < 1))
        {
            throw new ArgumentException(
                "accepted is one study or more, each on one degree of freedom or more",
                nameof(studies)
            );
        }

        var total = studies.Sum(study => study.DegreesOfFreedom);
        var pooled = DecimalArithmetic.Norm([
            .. studies.Select(study =>
                study.Deviation.Millimetres * DecimalArithmetic.SquareRoot(study.DegreesOfFreedom)
            ),
        ]);
        return new(
            Length.FromMillimetres(Math.Round(pooled / DecimalArithmetic.SquareRoot(total), Decimals)),
            DegreesOfFreedom.Of(total)
        );
    }
}
