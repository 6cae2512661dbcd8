using Microsoft.AspNetCore.Http;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Apis;

/// <summary>Who answers for something, as the query says: somebody in the register of the site.</summary>
internal static class GivenPerson
{
    private const int ShownMost = 64;

    public static bool IsRegistered(SiteRegisters site, string by) =>
        site.People.Any(person => person.Id.Text == by);

    public static IResult Unknown(string by) =>
        Complaint.Of(
            ProblemKind.Refused,
            $"by: `{Shortened.To(by, ShownMost)}` is not in the register of the site",
            "somebody whom /api/people lists"
        );

    /// <summary>That a reason names somebody in the register of one of these sites; null: it does not.</summary>
    public static IResult? NamedIn(string reason, params IEnumerable<SiteRegisters> sites)
    {
        if (
            ReasonNames.NamedIn(
                reason,
                sites.SelectMany(site => site.People).Select(person => person.Id.Text)
            )
            is not { } named
        )
        {
            return null;
        }

        var refusal = ReasonNames.Refusal(named);
        return Complaint.Of(ProblemKind.Refused, refusal.What, refusal.Accepted);
    }

    /// <summary>The correction that a query asks for; else what is wrong with the query.</summary>
    public static IResult? Correction(
        SiteRegisters site,
        string? by,
        string? reason,
        out Correction? correction
    )
    {
        correction = null;
        if (by is null || string.IsNullOrWhiteSpace(reason))
        {
            return Complaint.Of(
                ProblemKind.Refused,
                "who answers for it, and why, is needed",
                "?by=PERSON&reason=TEXT"
            );
        }

        if (!IsRegistered(site, by))
        {
            return Unknown(by);
        }

        if (reason.Length > FormatLimits.Sentence)
        {
            return Complaint.Of(
                ProblemKind.Refused,
                $"reason: it has {reason.Length} characters",
                $"1 to {FormatLimits.Sentence}"
            );
        }

        if (NamedIn(reason, site) is { } named)
        {
            return named;
        }

        correction = new Correction(by, reason);
        return null;
    }
}
