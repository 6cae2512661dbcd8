namespace ServiceRules.Application.Witnessing;

/// <summary>A folder of a witness that cannot be used as it is; the message says what is wrong and what is accepted.</summary>
public sealed class WitnessFolderException(string message) : Exception(message);
