using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Whether somebody may do what only authorised people do, as far as the register tells.</summary>
internal enum Authority
{
    /// <summary>The register shows them authorised; or the site keeps no register to hold them against.</summary>
    Shown,

    /// <summary>The register does not have them.</summary>
    NotKnown,

    /// <summary>The register shows them not authorised.</summary>
    Denied,
}

/// <summary>Who may do what.</summary>
internal static class Authorities
{
    /// <summary>What the register says of a person.</summary>
    public static Authority Of(DutyFrame duty, Id<Participant> person) => Of(duty.Context, person);

    /// <summary>What the register of a frozen context says of a person.</summary>
    public static Authority Of(AssessmentContext context, Id<Participant> person) =>
        context.People.FirstOrDefault(known => known.Id == person) switch
        {
            null when context.People.IsEmpty => Authority.Shown,
            null => Authority.NotKnown,
            { Authorised: true } => Authority.Shown,
            _ => Authority.Denied,
        };

    /// <summary>What stands against a person, after their name.</summary>
    public static string Against(Authority authority) =>
        authority == Authority.Denied
            ? "whom the register does not show as authorised"
            : "whom the register of people does not have";
}
