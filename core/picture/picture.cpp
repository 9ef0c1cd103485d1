#include "core/picture/picture.h"
