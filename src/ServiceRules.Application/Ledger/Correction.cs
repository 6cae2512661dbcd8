namespace ServiceRules.Application.Ledger;

/// <summary>Who corrects something that was filed, and why.</summary>
public sealed record Correction(string By, string Reason)
{
    /// <summary>
    /// Why this correction may not be taken for the one that stands; null when it is that one, sent again. Another reason
    /// or person over the same content would be lost, and whoever sent it would believe that it stands.
    /// </summary>
    internal FilingRefusal? RefusalOver(ILedgerReading log, FiledEntry standing)
    {
        var entry = standing.Entry;
        if (entry.Corrects is not null && entry.Reason == Reason && entry.By == log.PseudonymOf(By))
        {
            return null;
        }

        var what =
            entry.Corrects is null ? "nothing in it is corrected"
            : entry.Reason == Reason ? "by somebody else"
            : $"because `{entry.Reason}`";
        return new(
            $"`{entry.Subject}` stands as {LedgerWords.Entry(standing.Index)} with this very content, {what}",
            "content that differs, or the amendment that stands, with its reason and person, sent again"
        );
    }
}
