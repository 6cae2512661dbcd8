using ServiceRules.Application.Assessing;
using ServiceRules.Formats.Ledger;
using ServiceRules.Formats.Packs;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Ledger;

/// <summary>Files that a rule book came into force, by whom and why.</summary>
public sealed class FileRules(OpenLedger ledger, bool bringsBack = false)
{
    /// <summary>What all activations are about, so that they follow each other in the log.</summary>
    public const string Subject = "rules-in-force";

    public FilingOutcome File(RuleBook book, string by, string? reason)
    {
        ArgumentNullException.ThrowIfNull(book);
        var content = CanonicalForm.Of(RulePackFormat.Book.Write(book));
        return ledger.File(
            log => new FilingPlan.File(
                [
                    InForce(log) is { } standing && standing.Entry.Content == content.Hash.ToString()
                        ? new FilingPart.Standing(standing)
                        : new FilingPart.New(
                            new EntryDraft(EntryKind.PackActivation, Subject, content.Bytes)
                            {
                                Person = by,
                                Reason = reason,
                            }
                        ),
                ],
                []
            ),
            bringsBack
        );
    }

    /// <summary>The activation that counts now; null before the first.</summary>
    internal static FiledEntry? InForce(ILedgerReading log) =>
        EntryReading.About(log, Subject).LastOrDefault(entry => entry.Entry.Kind is EntryKind.PackActivation);
}
