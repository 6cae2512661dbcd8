namespace ServiceRules.Application.Library;

/// <summary>A file of a folder of rules.</summary>
/// <param name="Name">Its path relative to the folder, with forward slashes.</param>
/// <param name="Path">Where it is read from.</param>
internal sealed record RuleFile(string Name, string Path)
{
    /// <summary>The folder that it stands in, relative, or empty.</summary>
    public string Folder => Name.LastIndexOf('/') is >= 0 and var slash ? Name[..slash] : "";

    /// <summary>Its name without the folder.</summary>
    public string Leaf => Name[(Name.LastIndexOf('/') + 1)..];
}
