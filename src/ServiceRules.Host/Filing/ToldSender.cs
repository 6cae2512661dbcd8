using ServiceRules.Application.Ledger;

namespace ServiceRules.Host.Filing;

/// <summary>Who sent a version of a record to the service.</summary>
/// <param name="Name">The account that had signed in, <c>account:ID</c>, or the key that was shown, <c>key:ID</c>.</param>
/// <param name="Person">Pseudonym of the person of the register whom that stands for; left out where it stands for nobody.</param>
/// <param name="StandsFor">That person; left out where the person was forgotten, and to whoever sees but the records that name them.</param>
internal sealed record ToldSender(string Name, string? Person, string? StandsFor)
{
    public static ToldSender? Of(SubjectVersion version) =>
        version.Entry.Entry.Sender is { } sender ? new(sender.Name, sender.Person, version.SentFor) : null;
}
