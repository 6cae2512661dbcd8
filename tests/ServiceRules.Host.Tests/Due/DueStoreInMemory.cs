using System.Collections.Immutable;
using ServiceRules.Application.Due;

namespace ServiceRules.Host.Tests.Due;

/// <summary>What falls due, kept by nobody else: the service of the test does not look into it.</summary>
internal sealed class DueStoreInMemory : IDueStore
{
    private readonly Dictionary<string, (DueLook Look, ImmutableArray<DueThing> Found)> kept = [];
    private readonly HashSet<string> names = [];

    public List<DueNotice> All { get; } = [];

    public DueLook? Look(string site) => kept.TryGetValue(site, out var one) ? one.Look : null;

    public ImmutableArray<DueThing> Found(string site) =>
        kept.TryGetValue(site, out var one) ? one.Found : [];

    public void Keep(DueLook look, IEnumerable<DueThing> found) => kept[look.Site] = (look, [.. found]);

    public int Tell(IEnumerable<DueNotice> notices)
    {
        var news = notices.Where(notice => names.Add(Convert.ToHexString(notice.Thing.Span))).ToList();
        All.AddRange(news);
        return news.Count;
    }

    public ToldDueNotice? Told(long number) => null;
}
