using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Ledger;

/// <summary>Who sends a record to a service that knows who sends.</summary>
/// <param name="Name">The account that had signed in, <c>account:ID</c>, or the key that was shown, <c>key:ID</c>.</param>
/// <param name="Person">The person of the register whom that stands for; null: nobody.</param>
public sealed record KnownSender(string Name, string? Person)
{
    /// <summary>Where the record that is sent names the person; null: nowhere, or it was not looked for yet.</summary>
    internal string? Place { get; private init; }

    /// <summary>The same, knowing where a record names the person.</summary>
    internal KnownSender In(ServiceRecord record) =>
        this with
        {
            Place = Person is { } person ? PersonPlace.Find(record, person) : null,
        };
}
