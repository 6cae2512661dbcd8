using ServiceRules.Formats.Imports;

namespace ServiceRules.Host.Inbox;

/// <summary>A folder that the service takes files from.</summary>
public sealed record InboxSettings
{
    /// <summary>Where it is.</summary>
    public required string Folder { get; init; }

    /// <summary>The site whose records are dropped into it; null: there is one, or the first.</summary>
    public string? Site { get; init; }

    /// <summary>The mapping of tables that have none beside them; null: each needs its own.</summary>
    public ImportMapping? Mapping { get; init; }

    /// <summary>For how long a file has to stay as it is before it is taken: longer than programs pause while they write.</summary>
    public TimeSpan Settled { get; init; } = TimeSpan.FromSeconds(2);

    /// <summary>How often it is looked into.</summary>
    public TimeSpan Every { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>How long it is left alone when the store could not take a file.</summary>
    public TimeSpan Pause { get; init; } = TimeSpan.FromSeconds(10);
}
