namespace ServiceRules.Host.Pages.Forms;

/// <summary>One of a list that a field offers.</summary>
public sealed record FieldChoice(string Value, string Text)
{
    public static IReadOnlyList<FieldChoice> Of(IEnumerable<string> words) =>
        [.. words.Select(word => new FieldChoice(word, word))];
}
