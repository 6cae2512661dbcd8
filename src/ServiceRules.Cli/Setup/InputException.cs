namespace ServiceRules.Cli.Setup;

/// <summary>Something that the person gave cannot be used; the message says what and what would be accepted.</summary>
internal sealed class InputException(params IReadOnlyList<string> lines) : Exception(string.Join('\n', lines))
{
    /// <summary>Each for a line of its own; in none of them a line can be begun by what somebody else wrote.</summary>
    public IReadOnlyList<string> Lines { get; } = lines;

    public void Tell(TextWriter error)
    {
        foreach (var line in Lines)
        {
            error.WriteLine(line);
        }
    }
}
