using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Rows;

/// <summary>A content that rows are made of and that nothing removed on purpose: it is gone, or other bytes now.</summary>
/// <param name="Named">The entry that it is named by.</param>
/// <param name="Whose">What it is of that entry.</param>
/// <param name="Digest">What it is named by.</param>
internal sealed record LostContent(FiledEntry Named, string Whose, string Digest)
{
    public override string ToString() => $"the {Whose} of {LedgerWords.Entry(Named.Index)}, {Digest}";

    /// <summary>That rows cannot be made, and why.</summary>
    /// <param name="log">The log.</param>
    /// <param name="version">The version whose rows they are.</param>
    public LedgerFault Fault(ILedgerReading log, FiledEntry version) =>
        new(
            LedgerFaultCode.ContentMissing,
            $"the rows of {LedgerWords.Entry(version.Index)}, record `{version.Entry.Subject}`",
            $"they cannot be made: {this} is "
                + (
                    ContentHash.TryParse(Digest, out var hash) && log.Content(hash) is not null
                        ? "kept with other bytes than were filed"
                        : "missing, and no erasure removed it"
                )
        );
}
