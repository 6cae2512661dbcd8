using ServiceRules.Domain.Site;

namespace ServiceRules.Application.Submitting;

/// <summary>Somebody who is told of an assessment, and may not see every record that it took into account.</summary>
/// <param name="Person">For which person of the register they stand; null: for none.</param>
/// <param name="SeesRecord">Whether a record, by its identity, may be seen.</param>
public sealed record Onlooker(string? Person, Func<string, bool> SeesRecord)
{
    internal bool Sees(string record) => SeesRecord(record);

    /// <summary>Where they were themselves they may know, and what a record shows that they may see.</summary>
    internal bool Sees(Elsewhere elsewhere) =>
        elsewhere is PersonElsewhere { Person.Text: var person } && person == Person
        || elsewhere.Record is { } told && SeesRecord(told.Text);
}
