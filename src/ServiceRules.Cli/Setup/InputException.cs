namespace ServiceRules.Cli.Setup;

/// <summary>Something that the person gave cannot be used; the message says what and what would be accepted.</summary>
internal sealed class InputException(string message) : Exception(message);
