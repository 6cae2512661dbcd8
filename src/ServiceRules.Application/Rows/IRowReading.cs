using System.Collections.Immutable;
using ServiceRules.Application.Submitting;

namespace ServiceRules.Application.Rows;

/// <summary>
/// Answers about what stands in the log, without reading the log. Safe to share between threads. Rows that are told are those
/// that were made of the log, by their digests: where one is not, the question fails (<see cref="Ledger.StoreTrouble.Rows"/>).
/// </summary>
public interface IRowReading
{
    /// <summary>How many entries of the log the rows cover. Less than there are: they are to be brought up.</summary>
    long Covered { get; }

    RowPage<RecordRow> Records(RecordFilter filter, RowPaging paging);

    RowPage<UnitRow> Units(UnitFilter filter, RowPaging paging);

    RowPage<FindingRow> Findings(FindingFilter filter, RowPaging paging);

    /// <summary>Every version of a record, the oldest first.</summary>
    ImmutableArray<RecordRow> Versions(string record);

    /// <summary>The newest versions of the records of a site that are dated in these days, by day.</summary>
    ImmutableArray<RecordRow> OfDays(string site, DateOnly from, DateOnly until);

    /// <summary>Newest versions by what they show something of, each once.</summary>
    ImmutableArray<RecordRow> Shown(ShownFilter filter);

    /// <summary>What was answered to a submission with this key; null when there was none.</summary>
    AnsweredKey? Answer(SubmissionKey key);

    /// <summary>What stands of places in the log, whatever it is, in their order.</summary>
    IReadOnlyList<KeptRows> Kept(long from, long until);
}
