using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>Why one entry of the record cannot be taken quite at its word.</summary>
/// <param name="Kind">Which doubt.</param>
/// <param name="Pointer">The entry.</param>
/// <param name="Why">In words, a whole sentence without its full stop.</param>
/// <param name="Weakens">What rests on this entry alone is not proven by it.</param>
internal sealed record EntryDoubt(CredibilityOf Kind, string Pointer, string Why, bool Weakens)
{
    /// <summary>The other entry of a contradiction between two, which proves what it proves; or null.</summary>
    public string? Against { get; init; }

    /// <summary>Every entry that it is about.</summary>
    public IEnumerable<string> Pointers => Against is null ? [Pointer] : [Pointer, Against];
}
