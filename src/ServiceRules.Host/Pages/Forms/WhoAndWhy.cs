using System.Globalization;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Pages.Forms;

/// <summary>Who answers for what a form asks, and why: held against the same as in a query, and told at the fields.</summary>
internal static class WhoAndWhy
{
    public const string By = "by";
    public const string Reason = "reason";

    private const int ShownMost = 64;

    /// <summary>For whom the account stands, or who was chosen; null: what is wrong with that stands at the field.</summary>
    public static string? Person(SentForm sent, Caller caller, params IReadOnlyList<SiteRegisters> sites)
    {
        var by = caller.Person ?? sent.Value(By);
        if (by.Length == 0)
        {
            sent.RefuseAt(By, "It is not said who answers for it; accepted: one of the list.");
            return null;
        }

        if (!sites.Any(site => GivenPerson.IsRegistered(site, by)))
        {
            sent.RefuseAt(
                By,
                $"`{Shortened.To(by, ShownMost)}` is not in the register of the site; accepted: one of the list."
            );
            return null;
        }

        return by;
    }

    /// <summary>Null: what is wrong with the reason stands at the field.</summary>
    public static string? Sentence(SentForm sent, params IReadOnlyList<SiteRegisters> sites)
    {
        if (sent.Given(Reason) is not { } reason)
        {
            sent.RefuseAt(Reason, "It is not said why; accepted: a sentence.");
            return null;
        }

        if (reason.Length > FormatLimits.Sentence)
        {
            sent.RefuseAt(
                Reason,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"The reason has {reason.Length} characters; accepted: 1 to {FormatLimits.Sentence}."
                )
            );
            return null;
        }

        if (reason.Any(char.IsControl))
        {
            sent.RefuseAt(
                Reason,
                "The reason holds a sign that is no text; accepted: a sentence, on one line."
            );
            return null;
        }

        if (ReasonNames.NamedIn(reason, People(sites)) is { } named)
        {
            var refusal = ReasonNames.Refusal(named);
            sent.Refuse(refusal.What, refusal.Accepted, Reason);
            return null;
        }

        return reason;
    }

    public static IEnumerable<string> People(params IReadOnlyList<SiteRegisters> sites) =>
        sites.SelectMany(site => site.People).Select(person => person.Id.Text).Distinct();
}
