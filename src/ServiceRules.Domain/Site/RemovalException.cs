using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Site;

/// <summary>The site's written way to take off the device of somebody who is not there.</summary>
/// <param name="Id">Its identity, as events name it.</param>
/// <param name="Trained">Who was trained in it.</param>
public sealed record RemovalException(string Id, ImmutableArray<Id<Participant>> Trained);
