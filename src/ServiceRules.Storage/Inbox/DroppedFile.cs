namespace ServiceRules.Storage.Inbox;

/// <summary>A file that somebody dropped into an inbox, as it was seen.</summary>
/// <param name="Name">Its name.</param>
/// <param name="IsTaken">Whether it is in the private folder already, where nobody else comes by its name.</param>
/// <param name="Length">How many bytes it has.</param>
/// <param name="Changed">When it was written to last.</param>
public sealed record DroppedFile(string Name, bool IsTaken, long Length, DateTime Changed)
{
    /// <summary>Whether it holds the mapping of a table.</summary>
    public bool IsMapping => Name.EndsWith(InboxFolder.MappingEnding, StringComparison.OrdinalIgnoreCase);

    /// <summary>The name of the mapping that belongs to it where it is a table.</summary>
    public string MappingName => Path.GetFileNameWithoutExtension(Name) + InboxFolder.MappingEnding;
}
