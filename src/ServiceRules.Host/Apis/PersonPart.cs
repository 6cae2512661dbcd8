namespace ServiceRules.Host.Apis;

/// <summary>A person in a list, for the description of the interface.</summary>
[Published("registers.registered-person")]
internal sealed class PersonPart;
