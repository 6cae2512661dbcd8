namespace ServiceRules.TestKit;

/// <summary>One run that is asked for.</summary>
/// <param name="Folder">The folder it runs in.</param>
/// <param name="Environment">Settings of the machine that it sees.</param>
public sealed record WarmRequest(
    string Folder,
    IReadOnlyDictionary<string, string> Environment,
    string[] Arguments
);
