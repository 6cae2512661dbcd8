using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A difference told the other way round.</summary>
internal static class Negated
{
    public static Knowledge Of(Knowledge difference) =>
        KnownDifference.Between(MeasuredValue.Exact(Length.Zero), difference);
}
