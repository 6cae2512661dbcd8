using System.Globalization;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// What stands behind the last whole checkpoint of a log's own file. A power cut leaves the beginning of one that the
/// database keeps, since that is where each is kept first; whatever else stands there was not left by the log.
/// </summary>
internal static class TornCheckpoint
{
    private const int SizeLine = 1;

    /// <summary>Whether it is no more than the beginning of a checkpoint that the log keeps.</summary>
    public static bool IsOfOurs(string remnant, ILedgerReading log)
    {
        // Some file systems leave zeros where bytes were still to come.
        var written = remnant.TrimEnd('\0');
        return written.Length == 0
            || log.Checkpoints().Any(note => note.StartsWith(written, StringComparison.Ordinal));
    }

    public static string Remark(ShelvedCheckpoint remnant) =>
        $"{remnant.Where} stands the beginning of one that the database keeps whole: writing it was broken off; it goes "
        + "when the next one is written";

    public static LedgerFault Fault(ShelvedCheckpoint remnant, long size)
    {
        var lines = remnant.Note.Split('\n');
        return
            lines.Length > SizeLine
            && long.TryParse(lines[SizeLine], NumberStyles.None, CultureInfo.InvariantCulture, out var said)
            && said > size
            ? new(
                LedgerFaultCode.Shorter,
                remnant.Where,
                $"what is left there of another names size {LedgerWords.Number(said)}, here it is {LedgerWords.Number(size)}"
            )
            : new(
                LedgerFaultCode.Checkpoint,
                remnant.Where,
                "what stands there is the beginning of none that this log keeps"
            );
    }
}
