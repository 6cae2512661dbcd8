using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Geometry;

/// <summary>How readings that fit their line ill widen what rests on it.</summary>
/// <param name="Factor">At least 1, on each reading's own part.</param>
/// <param name="Scatter">The least that each reading's own part comes to, in millimetres.</param>
internal readonly record struct Misfit(double Factor, double Scatter)
{
    /// <summary>Widens nothing.</summary>
    public static Misfit None { get; } = new(1, 0);

    /// <summary>By a factor.</summary>
    public static Misfit By(double factor) => new(factor, 0);

    /// <summary>Up to how far the readings scatter.</summary>
    public static Misfit About(double scatter) => new(1, scatter);

    /// <summary>A reading's own part as it enters with a weight.</summary>
    public IndependentErrors Widen(IndependentErrors own, double weight) =>
        own.AtLeast(Scatter).Times(weight * Factor);
}
