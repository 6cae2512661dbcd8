using ServiceRules.Application.Keeping;
using ServiceRules.Host.Filing;

namespace ServiceRules.Host.Apis;

/// <summary>A hold.</summary>
/// <param name="Id">What it is called.</param>
/// <param name="Record">The record that it keeps.</param>
/// <param name="Machine">The machine whose records it keeps.</param>
/// <param name="Person">The person whose records it keeps.</param>
/// <param name="From">The first day of jobs that it keeps.</param>
/// <param name="Until">The last day of jobs that it keeps.</param>
/// <param name="Entry">Since when, by whom and why.</param>
/// <param name="Lifted">When it was lifted, by whom and why; left out while it holds.</param>
internal sealed record HoldAnswer(
    string Id,
    string? Record,
    string? Machine,
    string? Person,
    DateOnly? From,
    DateOnly? Until,
    ToldEntry Entry,
    ToldEntry? Lifted
)
{
    public static HoldAnswer Of(Hold hold) =>
        new(
            hold.Id,
            hold.Scope?.Record,
            hold.Scope?.Machine,
            hold.Scope?.Person,
            hold.Scope?.From,
            hold.Scope?.Until,
            ToldEntry.Of(hold.Entry),
            hold.Lifted is { } lifted ? ToldEntry.Of(lifted) : null
        );
}
