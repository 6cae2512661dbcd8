using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Notices;

/// <summary>Whom the site names, and what each is told of.</summary>
public sealed record NoticeRecipients(ImmutableArray<NoticeRecipients.One> All)
{
    public static NoticeRecipients None { get; } = new([]);

    /// <summary>The names of those who are told of a disposition; nobody is told of a release.</summary>
    public IEnumerable<string> Of(Disposition disposition) =>
        disposition is Disposition.Release
            ? []
            : All.Where(one => one.IsToldOf(disposition)).Select(one => one.Name);

    /// <summary>The names of those who are told of what falls due.</summary>
    public ImmutableArray<string> OfDue => [.. All.Where(one => one.OnDue).Select(one => one.Name)];

    /// <summary>Those who are told of a site.</summary>
    public NoticeRecipients At(string site) =>
        new([.. All.Where(one => one.Site is null || one.Site == site)]);

    /// <summary>A recipient.</summary>
    /// <param name="Name">What it is called in settings and notices.</param>
    /// <param name="On">The dispositions that it is told of.</param>
    public sealed record One(string Name, ImmutableArray<Disposition> On)
    {
        /// <summary>The site that it is told of; null: every one.</summary>
        public string? Site { get; init; }

        /// <summary>Whether it is told of what falls due.</summary>
        public bool OnDue { get; init; }

        public bool IsToldOf(Disposition disposition) => On.Contains(disposition);
    }
}
