using System.Globalization;
using ServiceRules.Host.Filing;

namespace ServiceRules.Host.Pages;

/// <summary>That a record was judged again, as a page tells it.</summary>
public sealed record ShownTurn(string Record, string At, string Why, IReadOnlyList<string> Changes)
{
    internal static ShownTurn Of(ToldTurn turn) =>
        new(
            turn.Id,
            turn.Judged.At.ToString("yyyy-MM-dd HH:mm:ss'Z'", CultureInfo.InvariantCulture),
            turn.Judged.Reason ?? "",
            [.. turn.Changes.Select(Sentence)]
        );

    internal static string Sentence(ToldChange change)
    {
        var turned = $"{change.Subject}: {Word(change.Was)}, now {Word(change.Is)}";
        return change.Rule is null ? turned
            : change.Statement is { } statement ? $"{turned}: {statement} ({change.Rule})"
            : $"{turned} ({change.Rule})";
    }

    private static string Word(string? word) =>
        word switch
        {
            null => "not judged",
            "not-met" or "unproven" => ShownFinding.WordOf(word),
            "release" or "hold" or "stop" => ShownFinding.WordOfDisposition(word),
            _ => word.Replace('-', ' '),
        };
}
