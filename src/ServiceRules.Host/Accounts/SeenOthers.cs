using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Accounts;

/// <summary>
/// What answers tell of other records: to whoever sees but the records that name them, no identity, person or time out of one that
/// they may not see. Verdicts take it into account all the same.
/// </summary>
/// <param name="caller">Who is told.</param>
/// <param name="judging">Judges by the registers of the site.</param>
/// <param name="log">The log.</param>
/// <param name="rows">Its rows.</param>
internal sealed class SeenOthers(Caller caller, AssessRecord judging, ILedgerReading log, IRowReading rows)
{
    private const string LightOf = "judged again in the light of ";

    private readonly Dictionary<string, bool> known = new(StringComparer.Ordinal);

    /// <summary>
    /// Whether it cannot be found out here what may be told: the site of somebody who does not see every record is not served by
    /// this instance.
    /// </summary>
    public static bool CannotTell(Caller caller, ServedSites sites) =>
        caller.IsLimited && sites.Choose(caller, null, out _) is not null;

    /// <summary>Null for whoever sees every record of the site.</summary>
    public static SeenOthers? For(Caller caller, ServedSites sites, ILedgerReading log, IRowReading rows) =>
        caller.IsLimited && sites.Choose(caller, null, out var own) is null
            ? new(caller, own.Rules.Now().Judging, log, rows)
            : null;

    /// <summary>An assessment that was just made, as far as it may be told.</summary>
    public static ReadOnlyMemory<byte> Assessment(
        Caller caller,
        ServedSites sites,
        OpenLedger ledger,
        Assessed assessed
    ) =>
        ledger.Read((log, rows) => For(caller, sites, log, rows)?.Of(assessed).Bytes)
        ?? assessed.Evidence.Assessment.Bytes;

    /// <summary>
    /// Whether the newest assessment of a record took others into account that a caller may not see, or whether it did is not known any more.
    /// </summary>
    public static bool AreHidden(OpenLedger ledger, string id, Caller caller, ServedSites sites) =>
        AreHidden(caller, SeenRecords.Of(ledger, id, caller, sites)?.Others);

    /// <summary>The same, of what an answer tells of others.</summary>
    public static bool AreHidden(Caller caller, ToldOthers? told) =>
        caller.IsLimited && told is not { Hidden: null };

    public bool Sees(string record)
    {
        if (!known.TryGetValue(record, out var sees))
        {
            known[record] = sees = SeenRecords.IsSeen(log, rows, record, caller);
        }

        return sees;
    }

    public AssessmentAsSeen Of(FiledEntry assessment) =>
        AssessmentAsSeen.Of(judging, log, assessment, new Onlooker(caller.Person, Sees));

    public AssessmentAsSeen Of(Assessed assessed) =>
        AssessmentAsSeen.Of(judging, assessed, new Onlooker(caller.Person, Sees));

    /// <summary>Without the name of a record that may not be seen.</summary>
    public ToldEntry Of(ToldEntry entry) =>
        entry.Reason is { } reason
        && reason.StartsWith(LightOf, StringComparison.Ordinal)
        && !Sees(reason[LightOf.Length..])
            ? entry with
            {
                Reason = LightOf + "another record",
            }
            : entry;

    /// <summary>The sentences of findings may rest on others, and stand in the assessment as far as they may be told.</summary>
    public ToldTurn Of(ToldTurn turn) =>
        turn with
        {
            Judged = Of(turn.Judged),
            Changes = [.. turn.Changes.Select(change => change with { Statement = null })],
        };

    /// <summary>Whoever it was sent for is told by pseudonym, as whoever answers for it.</summary>
    public ToldVersion Of(ToldVersion version) =>
        version with
        {
            Sender = version.Sender is { } sender ? sender with { StandsFor = null } : null,
            Assessments = [.. version.Assessments.Select(Of)],
        };
}
