using System.Globalization;
using ServiceRules.Application.Ledger;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>What identity in a report rests on, in a sentence: what the entry of the record says of who sent it, and no more.</summary>
internal static class SignInWords
{
    private const string NotChecked =
        "people stand here by the pseudonyms of the record, as entered; no sign-in was checked.";

    /// <param name="sender">Who sent the record, as its entry says; null: nobody was asked to sign in.</param>
    /// <param name="record">The record.</param>
    public static string Of(EntrySender? sender, ServiceRecord record)
    {
        if (sender is null)
        {
            return NotChecked;
        }

        var (how, and) = sender.IsKey ? ("with", ", which") : ("by", ", which had signed in and");
        var person = sender.Place is { } place ? PersonPlace.Read(record, place) : null;
        var whom = person ?? sender.Person ?? "nobody in the register";
        return $"filed over the service {how} {sender.Name}{and} stands for {whom}; who did what is as entered, by the "
            + "pseudonyms of the record.";
    }

    /// <param name="senders">Of each job the account or key that sent its record; null where nobody was asked to sign in.</param>
    public static string Of(IReadOnlyCollection<string?> senders)
    {
        var known = senders.OfType<string>().ToList();
        if (known.Count == 0)
        {
            return NotChecked;
        }

        var keys = known.Count(name => new EntrySender(name, null, null).IsKey);
        string[] parts =
        [
            Counted(known.Count - keys, "filed over the service by accounts that had signed in"),
            Counted(keys, "filed over the service with keys of programs"),
            Counted(senders.Count - known.Count, "of which nothing tells who sent them"),
        ];
        return $"of the jobs {ReportWords.Listed([.. parts.Where(part => part.Length > 0)])}, as their entries in the log say; who did "
            + "what is as entered, by the pseudonyms of the records.";
    }

    private static string Counted(int count, string what) =>
        count == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{count} {what}");
}
