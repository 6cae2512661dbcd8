using ServiceRules.Application.Notices;
using ServiceRules.Application.Working;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Notices;

/// <summary>Notices that wait.</summary>
internal sealed class NoticesOwed(INoticeStore store, NoticeWork work, NoticeMeter meter) : IOwedWork
{
    private long from;

    public IWork Work => work;

    public IEnumerable<string> Owed(bool isAll)
    {
        if (isAll)
        {
            from = 0;
        }

        foreach (var notice in store.Waiting(from))
        {
            yield return NoticeWork.WhatOf(notice);
            // Those of one assessment were kept together. What is tried anew is older.
            from = Math.Max(from, notice.Entry);
        }

        meter.Stands(store.Count());
    }
}
