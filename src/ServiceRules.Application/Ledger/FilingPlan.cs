using System.Collections.Immutable;

namespace ServiceRules.Application.Ledger;

/// <summary>What a filing comes to, decided inside its transaction.</summary>
internal abstract record FilingPlan
{
    private FilingPlan() { }

    /// <summary>It may not be filed.</summary>
    public sealed record Refuse(FilingRefusal Refusal) : FilingPlan;

    /// <summary>Each part is appended, or stands already.</summary>
    /// <param name="Parts">In the order in which they are appended.</param>
    /// <param name="Beside">Contents kept without an entry of their own, such as the context of an assessment.</param>
    public sealed record File(ImmutableArray<FilingPart> Parts, ImmutableArray<ReadOnlyMemory<byte>> Beside)
        : FilingPlan
    {
        /// <summary>Contents that are removed in the same transaction.</summary>
        public ImmutableArray<Evidence.ContentHash> Removed { get; init; } = [];

        /// <summary>Whether somebody answers for it that what an erasure removed is filed again.</summary>
        public bool BringsBack { get; init; }

        /// <summary>What else becomes durable with it, once its parts have their places.</summary>
        public Action<ILedgerWriting, ImmutableArray<FilingOutcome.Placed>>? Also { get; init; }

        /// <summary>The pseudonym that is forgotten in the same transaction.</summary>
        public string? Forgotten { get; init; }
    }
}
