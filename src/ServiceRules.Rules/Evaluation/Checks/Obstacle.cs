using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Why a quantity is not known at a place where it has to be.</summary>
/// <param name="Reason">Conflicting, stale, not measured, or too few stations.</param>
/// <param name="Station">Where; none for a quantity of one place.</param>
/// <param name="Place">The place in words.</param>
/// <param name="Evidence">Entries that show it.</param>
internal sealed record Obstacle(
    FindingReason Reason,
    Length? Station,
    string Place,
    ImmutableArray<string> Evidence
)
{
    /// <summary>The place was read, but on some blades only.</summary>
    public bool OnSomeBlades { get; init; }

    /// <summary>Where <see cref="Place"/> is a whole unit: what of it was not read, in words; else none.</summary>
    public string? Lacking { get; init; }

    /// <summary>Feelers of the place that were not yet tried twice with one result, in words; empty where that does not tell.</summary>
    public ImmutableArray<string> Once { get; init; } = [];

    /// <summary>Feelers or contact contradict one another with nothing turned between, which trying again does not settle.</summary>
    public bool IsUnturned { get; init; }

    /// <summary>It is contact noted where a gap was read.</summary>
    public bool IsGapBesideContact { get; init; }

    /// <summary>Of which quantity it is told, where more than one is concerned; else empty.</summary>
    public string Subject { get; init; } = string.Empty;

    public int Gravity =>
        Reason switch
        {
            FindingReason.Conflicting => 0,
            FindingReason.Stale => 1,
            FindingReason.NotMeasured => 2,
            _ => 3,
        };
}
