/** How citations of Appendix J, Article 253 are written. */
import type { Where } from '../limit';

export const at = (article: string): string => `Appendix J, Article ${article}`;
export const text = (article: string, edition: string): Where => ({ citation: at(article), edition });
