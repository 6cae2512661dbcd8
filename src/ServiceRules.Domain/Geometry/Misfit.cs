using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Geometry;

/// <summary>How readings that fit their line ill widen what rests on it.</summary>
/// <param name="Scatter">The least that each reading's own part comes to, in millimetres.</param>
internal readonly record struct Misfit(double Scatter)
{
    /// <summary>Widens nothing.</summary>
    public static Misfit None => default;

    /// <summary>A reading's own part as it enters with a weight.</summary>
    public IndependentErrors Widen(IndependentErrors own, double weight) =>
        own.AtLeast(Scatter).Times(weight);
}
