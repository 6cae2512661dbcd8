using ServiceRules.Host.Filing;

namespace ServiceRules.Host.Apis;

/// <summary>Where what was asked for stands.</summary>
/// <param name="Entry">Its entry.</param>
/// <param name="IsNew">Whether it stood not already.</param>
internal sealed record EnteredAnswer(ToldEntry Entry, bool IsNew);
