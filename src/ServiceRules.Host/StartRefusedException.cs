namespace ServiceRules.Host;

/// <summary>The service does not start; the lines say why and what would be accepted.</summary>
public sealed class StartRefusedException(params IReadOnlyList<string> lines)
    : Exception(string.Join('\n', lines))
{
    public IReadOnlyList<string> Lines { get; } = lines;
}
