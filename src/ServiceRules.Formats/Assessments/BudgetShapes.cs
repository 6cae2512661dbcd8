using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Assessments;

/// <summary>What an expanded uncertainty is made of, so that anybody can reckon it again.</summary>
internal static class BudgetShapes
{
    // Ten errors of little known size and one of each source that is taken as known are far fewer.
    private const int MostContributions = 100;

    // From here on degrees of freedom count as infinite, and are left out.
    private const int MostDegrees = 1_000_000;

    // k on one degree of freedom is 13.97 at 95.45 %.
    private const int LargestFactor = 14;

    private static readonly JsonShape<StandardUncertainty> Standard = Terms.ExactLength.AsParsed(
        length =>
            length >= Length.Zero && length <= StandardUncertainty.Largest
                ? Parsed<StandardUncertainty>.Of(StandardUncertainty.From(length))
                : Parsed<StandardUncertainty>.Refused(
                    new ParseFailure(
                        length.ToString(),
                        $"a length from nothing to `{StandardUncertainty.Largest}`"
                    )
                    {
                        Problem = "is no standard uncertainty",
                    }
                ),
        uncertainty => uncertainty.Value
    );

    private static readonly JsonShape<DegreesOfFreedom> Degrees = Shape
        .Number(1, MostDegrees)
        .As(number => DegreesOfFreedom.Of((double)number), degrees => degrees.Stated ?? MostDegrees);

    private static readonly JsonShape<decimal> Factor = Shape.Number(1, LargestFactor);

    private static readonly ObjectShape<StatedContribution> Contribution = Shape.Object<StatedContribution>(
        "contribution",
        "One line of an uncertainty budget.",
        o =>
        {
            var source = o.Required(
                "source",
                Shape.Choice<UncertaintySource>("Where a contribution to an uncertainty comes from."),
                "where it comes from",
                c => c.Source
            );
            var uncertainty = o.Required(
                "uncertainty",
                Standard,
                "its standard uncertainty as it enters the value, rounded up to 0.0000001 mm",
                c => c.Uncertainty
            );
            var degrees = DegreesOf(o, c => c.DegreesOfFreedom);
            var counted = o.Defaulted(
                "counted",
                Shape.Flag,
                true,
                "whether U rests on it; `false` where the others by themselves come to more",
                c => c.IsCounted
            );
            return v =>
                new(
                    v.Get(source),
                    v.Get(uncertainty),
                    v.Get(degrees) ?? DegreesOfFreedom.Infinite,
                    v.Get(counted)
                );
        }
    );

    private static readonly ObjectShape<StatedPart> Part = Shape.Object<StatedPart>(
        "budget-part",
        "The contributions that count where they by themselves come to more than all together.",
        o =>
        {
            var combined = o.Required("combined", Standard, "their u", p => p.Combined);
            var degrees = DegreesOf(o, p => p.DegreesOfFreedom);
            var factor = o.Required("coverageFactor", Factor, "k for these degrees", p => p.CoverageFactor);
            return v => new(v.Get(combined), v.Get(degrees) ?? DegreesOfFreedom.Infinite, v.Get(factor));
        }
    );

    public static ObjectShape<StatedBudget> Budget { get; } =
        Shape.Object<StatedBudget>(
            "budget",
            "What an expanded uncertainty is made of: u is the root of the sum of squares, U is k times u.",
            o =>
            {
                var contributions = o.Items(
                    "contributions",
                    Contribution,
                    MostContributions,
                    "the contributions; those that come to nothing are left out",
                    b => b.Contributions
                );
                var combined = o.Required(
                    "combined",
                    Standard,
                    "u, all contributions together",
                    b => b.Combined
                );
                var degrees = DegreesOf(o, b => b.DegreesOfFreedom);
                var factor = o.Required(
                    "coverageFactor",
                    Factor,
                    "k for these degrees",
                    b => b.CoverageFactor
                );
                var level = o.Required(
                    "level",
                    Terms.Level,
                    "the level of confidence of k and U",
                    _ => StatedBudget.Level
                );
                var expanded = o.Required(
                    "expanded",
                    Terms.ExactLength,
                    "U, k times u, or of `restsOn` where that is stated",
                    b => b.Expanded
                );
                var part = o.Optional(
                    "restsOn",
                    Part,
                    "what U rests on where a part of the contributions comes to more than all of them",
                    b => b.RestsOn
                );
                return v =>
                {
                    _ = v.Get(level);
                    return new StatedBudget
                    {
                        Contributions = v.Get(contributions),
                        Combined = v.Get(combined),
                        DegreesOfFreedom = v.Get(degrees) ?? DegreesOfFreedom.Infinite,
                        CoverageFactor = v.Get(factor),
                        Expanded = v.Get(expanded),
                        RestsOn = v.Get(part),
                    };
                };
            }
        );

    private static Slot<DegreesOfFreedom?> DegreesOf<T>(
        ObjectMembers<T> members,
        Func<T, DegreesOfFreedom> get
    )
        where T : notnull =>
        members.Optional(
            "degreesOfFreedom",
            Degrees,
            "how well that is known; left out where it is taken as known (infinite)",
            each => get(each) is { IsInfinite: false } finite ? finite : (DegreesOfFreedom?)null
        );
}
