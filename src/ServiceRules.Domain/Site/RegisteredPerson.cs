using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Site;

/// <summary>A person in the site's register.</summary>
/// <param name="Id">Pseudonymous identity.</param>
/// <param name="Authorised">May lock out and work on machines.</param>
/// <param name="TrainedOn">Date of the training that the authorisation rests on.</param>
/// <param name="TrainedUntil">Until when it holds; absent: no end stated.</param>
/// <param name="MayRelease">May let out, with a reason, what others did: by a second person's release or a waiver.</param>
public sealed record RegisteredPerson(
    Id<Participant> Id,
    bool Authorised,
    DateOnly? TrainedOn,
    DateOnly? TrainedUntil,
    bool MayRelease = false
);
