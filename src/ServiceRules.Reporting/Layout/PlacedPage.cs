using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

public sealed record PlacedPage(double Width, double Height, ImmutableArray<Placed> Items);
