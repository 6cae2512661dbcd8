using ServiceRules.Application.Assessing;
using ServiceRules.Application.Rows;

namespace ServiceRules.Application.Submitting;

/// <summary>A stored record that may bear on a job, and what is kept of it.</summary>
internal sealed record StoredOther(RecordRow Row, WorkElsewhere.RecordTold Told);
