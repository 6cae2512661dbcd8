using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>What a single further reading is foretold to be.</summary>
/// <param name="Value">By the line itself.</param>
/// <param name="Lower">The least of 95 readings in a hundred.</param>
/// <param name="Upper">The greatest of 95 readings in a hundred.</param>
public sealed record PredictionInterval(Length Value, Length Lower, Length Upper);
