using Microsoft.AspNetCore.Http;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Records;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Accounts;

/// <summary>Why something is not taken from whoever sends it.</summary>
internal sealed record SenderFault(ProblemKind Kind, string Detail, string Accepted);

/// <summary>What is asked of a submission besides what it says: nobody answers in another's name.</summary>
internal static class Sender
{
    /// <summary>
    /// Who answers for what is sent, where nobody is named the person whom the account or key stands for: whoever stands for somebody files in
    /// no other name, by leaving the name out either. Null: who signed it off.
    /// </summary>
    public static string? By(Caller caller, string? given) => given ?? caller.Person;

    /// <summary>Who sends, as the log tells it.</summary>
    public static KnownSender Known(Caller caller) => new(caller.Name, caller.Person);

    /// <summary>Whether somebody may be named as who answers for something.</summary>
    public static SenderFault? Naming(Caller caller, string? by) =>
        by is not null && caller.Person is { } person && by != person
            ? new(ProblemKind.NotAllowed, "by: who asks stands for somebody else", $"by={person}, or nobody")
            : null;

    /// <summary>
    /// A technician sends what names the person of the account, and is told nothing of what others filed under the same identity.
    /// </summary>
    public static SenderFault? Sending(Caller caller, ReadOnlyMemory<byte> body, OpenLedger ledger)
    {
        if (!caller.IsLimited)
        {
            return null;
        }

        if (RecordFormat.Current.Read(body).TryGet(out var record, out _, out _) && !caller.IsNamedIn(record))
        {
            return new(
                ProblemKind.NotAllowed,
                $"the record does not name `{caller.Person}`, for whom the account stands",
                "a record in which that person stands"
            );
        }

        return
            SentRecord.IdOf(body) is { } id
            && !ledger.Rows.Versions(id).IsEmpty
            && !SeenRecords.IsSeen(ledger, id, caller)
            ? new(
                ProblemKind.Conflict,
                "something else stands under this identity",
                "another identity, or a shop lead who amends"
            )
            : null;
    }

    public static IResult Answer(SenderFault fault) => Complaint.Of(fault.Kind, fault.Detail, fault.Accepted);
}
