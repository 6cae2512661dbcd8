using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation;

/// <summary>One feeler tried.</summary>
/// <param name="Thickness">Nominal thickness (sum of a stack).</param>
/// <param name="Tolerance">Half width of its tolerance; null when the instrument states none.</param>
/// <param name="Passes">Whether it passed.</param>
/// <param name="Entry">Evidence pointer.</param>
public sealed record FeelerTried(Length Thickness, Length? Tolerance, bool Passes, string Entry)
{
    /// <summary>The feelers of a stack, in the order noted; empty for a single feeler.</summary>
    public ImmutableArray<PrintedLength> Stacked { get; init; } = [];

    /// <summary>The tolerance that its set states and that is not believed (<see cref="FeelerTolerance"/>); none where there is none.</summary>
    public PrintedLength? ToleranceNotBelieved { get; init; }

    /// <summary>As it is called at the bench: <c>0.002 in</c>, or <c>0.002 in + 0.003 in stacked</c>.</summary>
    /// <param name="system">The units in which a single feeler is told.</param>
    public string Named(UnitSystem system) =>
        Stacked.IsEmpty ? Wording.Of(Thickness, system) : $"{string.Join(" + ", Stacked)} stacked";

    /// <summary>Equal where thickness, tolerance, result, entry and the feelers of the stack are.</summary>
    public bool Equals(FeelerTried? other) =>
        other is not null
        && (Thickness, Tolerance, Passes, Entry, IsByRootSum)
            == (other.Thickness, other.Tolerance, other.Passes, other.Entry, other.IsByRootSum)
        && ToleranceNotBelieved == other.ToleranceNotBelieved
        && Stacked.SequenceEqual(other.Stacked);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Thickness, Passes, Entry);

    /// <summary>A stack whose tolerances were added by root-sum, as its set names it: no bound.</summary>
    public bool IsByRootSum { get; init; }
}
