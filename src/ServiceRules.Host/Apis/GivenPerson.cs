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

    /// <summary>That a reason names somebody.</summary>
    public static IResult NamedIn(string person)
    {
        var refusal = ReasonNames.Refusal(person);
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

        if (ReasonNames.NamedIn(reason, site.People.Select(person => person.Id.Text)) is { } named)
        {
            return NamedIn(named);
        }

        correction = new Correction(by, reason);
        return null;
    }
}
