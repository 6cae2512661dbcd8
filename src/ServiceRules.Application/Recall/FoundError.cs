using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Recall;

/// <summary>What was found wrong with a gauge.</summary>
public sealed record FoundError
{
    /// <summary>Which gauge.</summary>
    public required Id<Instrument> Instrument { get; init; }

    /// <summary>
    /// Reading minus truth: positive when it reads high. For feelers and pieces of fixed size, the size marked minus
    /// the true size: positive when they are thinner than marked.
    /// </summary>
    public required PrintedLength Error { get; init; }

    /// <summary>How well the error is known, as an expanded uncertainty with k = 2; null: exactly.</summary>
    public PrintedLength? Uncertainty { get; init; }

    /// <summary>Of a set of feelers, the one leaf that is wrong, by its marked size; null: all of them.</summary>
    public PrintedLength? Leaf { get; init; }

    /// <summary>The day from which the error is known to have been there in full; null: nobody knows since when.</summary>
    public DateOnly? From { get; init; }

    /// <summary>The last day on which it was there; null: to this day.</summary>
    public DateOnly? Until { get; init; }
}
