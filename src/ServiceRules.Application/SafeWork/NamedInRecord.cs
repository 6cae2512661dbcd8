using ServiceRules.Domain;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.SafeWork;

/// <summary>
/// Whom a record names, in whatever part. Its registers name more people, such as those a procedure names: they are not
/// of the job, and nobody who reads its report needs them.
/// </summary>
public static class NamedInRecord
{
    public static bool Has(ServiceRecord record, Id<Participant> person) =>
        record.People.Any(one => one.Id == person)
        || record.Timeline.Any(one =>
            one.Actor == person || one.Others.Contains(person) || one.Claim?.DecidedBy == person
        )
        || record.Units.Any(unit => unit.Entries.Any(entry => entry.By == person))
        || record.Requested.Any(one => one.By == person)
        || record.Releases.Any(one => one.By == person)
        || record.SignOff?.By == person
        || record.FollowUp?.By == person;
}
