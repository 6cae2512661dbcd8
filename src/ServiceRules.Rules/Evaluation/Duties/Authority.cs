using ServiceRules.Domain;
using ServiceRules.Domain.Records;

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
    public static Authority Of(DutyFrame duty, Id<Participant> person) => Of(duty.Job, person);

    /// <summary>What the register says of a person, as of the day on which the job began.</summary>
    public static Authority Of(JobFrame job, Id<Participant> person) =>
        job.Context.People.FirstOrDefault(known => known.Id == person)?.On(job.Days.Began) switch
        {
            null when job.Context.People.IsEmpty => Authority.Shown,
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
