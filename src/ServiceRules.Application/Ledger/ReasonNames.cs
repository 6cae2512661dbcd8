namespace ServiceRules.Application.Ledger;

/// <summary>
/// Reasons stand in entries, acts and activations, of which nothing is ever changed: whoever were named in one could not be
/// forgotten. They name nobody whom the register or the log knows. Who is called by letters alone may be a word of the language.
/// </summary>
public static class ReasonNames
{
    /// <summary>The first of these people who stands in a reason as a word of it; null when nobody does.</summary>
    public static string? NamedIn(string reason, IEnumerable<string> people)
    {
        ArgumentNullException.ThrowIfNull(reason);
        return people.FirstOrDefault(person =>
            !person.All(char.IsLetter)
            && WhereNamed.IsWordOf(reason, person, StringComparison.OrdinalIgnoreCase)
        );
    }

    /// <summary>That a reason names somebody, and what would be accepted.</summary>
    public static FilingRefusal Refusal(string person) =>
        new(
            $"the reason names `{person}`, and it would stay in the log for good",
            "a reason without the name"
        )
        {
            IsUnfit = true,
        };

    /// <summary>Null where nobody is named whom the log knows. What the product itself gives as a reason is no sentence of a person.</summary>
    internal static FilingRefusal? RefusalOf(EntryDraft draft, ILedgerReading log) =>
        draft is { Person: not null, Reason: { } reason }
        && NamedIn(reason, log.People().Select(known => known.Person)) is { } named
            ? Refusal(named)
            : null;
}
