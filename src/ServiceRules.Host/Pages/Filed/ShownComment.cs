using System.Globalization;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;

namespace ServiceRules.Host.Pages.Filed;

/// <summary>What was said of a record, as a page tells it.</summary>
/// <param name="When">When.</param>
/// <param name="By">Who says it: to those who oversee the person, where the log still knows whom it means; else the pseudonym.</param>
/// <param name="Entry">Where it stands in the log.</param>
/// <param name="Text">What; null: it is no longer kept.</param>
public sealed record ShownComment(string When, string By, long Entry, string? Text)
{
    internal static ShownComment Of(ILedgerReading log, ToldComment comment, Caller caller) =>
        new(Time(comment.Entry.At), Who(log, comment.Entry.By, caller), comment.Entry.Index, comment.Text);

    internal static string Time(DateTimeOffset at) =>
        at.UtcDateTime.ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);

    internal static string Who(ILedgerReading log, string? pseudonym, Caller caller) =>
        pseudonym is null ? "nobody named"
        : caller.IsLimited ? pseudonym
        : log.PersonBehind(pseudonym) ?? pseudonym;
}
